"""What is asked of the weeks ahead, as frozen values whose fields are the JSON's."""

from collections.abc import Iterable
from dataclasses import dataclass

from armorplan.app.mends import MendRow
from armorplan.app.tonight import MovedRow
from armorplan.app.what_if_rows import SideRow


@dataclass(frozen=True, slots=True, kw_only=True)
class LateReport:
    """A build that would be late, and by how much."""

    build: str
    late_min: int


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """What would free a plan; ``finish`` is ISO 8601 in UTC, null where it alone does not help.

    ``deed`` says whether it softens, moves or adds something, ``where`` where that is changed.
    """

    do: str
    deed: str
    finish: str | None
    late: tuple[LateReport, ...]
    price: str
    where: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SideBuild:
    """When a build ends in a plan; ``late_min`` is null where it is not due."""

    id: str
    title: str
    finish: str
    late_min: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SideReport:
    """A plan among those side by side; ``what_if`` is empty for the plan at hand."""

    what_if: str
    title: str
    finish: str | None
    late_min: int
    colour_changes: int
    builds: tuple[SideBuild, ...]
    against: str
    sureness: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SidesReport:
    """What ``armorplan plan … --what-if`` answers: the plan at hand, then each change."""

    plans: tuple[SideReport, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedReport:
    """A step that was moved; ``before`` is null where it could not be kept in any case."""

    id: str
    title: str
    before: str | None
    start: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TonightReport:
    """What ``armorplan plan … --around-tonight`` answers.

    ``reach_h``: so many hours were laid anew, null where all was.
    """

    sentence: str
    reach_h: int | None
    kept: int
    moved: tuple[MovedReport, ...]


def way_out(row: MendRow) -> WayOut:
    """Return one way out as it is answered."""
    return WayOut(
        do=row.title,
        deed=row.deed,
        finish=row.finish_at.isoformat() if row.finish_at else None,
        late=tuple(LateReport(build=title, late_min=minutes) for title, minutes in row.late),
        price=row.price,
        where=row.where,
    )


def sides_report(rows: Iterable[SideRow]) -> SidesReport:
    """Return plans side by side as they are answered."""
    return SidesReport(plans=tuple(_side(row) for row in rows))


def _side(row: SideRow) -> SideReport:
    return SideReport(
        what_if=row.key,
        title=row.title,
        finish=row.finish_at.isoformat() if row.finish_at else None,
        late_min=row.late_min,
        colour_changes=row.changes,
        builds=tuple(
            SideBuild(id=b.build, title=b.title, finish=b.end_at.isoformat(), late_min=b.late_min)
            for b in row.builds
        ),
        against=row.against,
        sureness=row.sureness,
    )


def moved_report(row: MovedRow) -> MovedReport:
    """Return a step that moved as it is answered."""
    return MovedReport(
        id=row.id,
        title=row.title,
        before=row.before_at.isoformat() if row.before_at else None,
        start=row.start_at.isoformat(),
    )
