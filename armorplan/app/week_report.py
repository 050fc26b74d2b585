"""What ``armorplan plan SHOP`` answers, as frozen values whose fields are the JSON's."""

from dataclasses import dataclass
from datetime import datetime

from armorplan.app.wish_report import WayOut
from armorplan.kernel.findings import Finding
from armorplan.schedule.problem import Plan, Stage
from armorplan.sheets.week_table import BuildLine, PlanLine, WeekTable


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildReport:
    """A build of the shop; instants are ISO 8601 in UTC, null where there is none."""

    id: str
    title: str
    due: str | None
    finish: str | None
    late_min: int
    weight: int


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekStepReport:
    """One sitting of a step in a plan; instants are ISO 8601 in UTC.

    ``who`` is null where time alone works; ``also`` names all who have to be there as well, ``beside``
    those of them who are at the bench beside whoever does it; ``bath`` empty for what goes into none; ``begin_by`` null
    where it may begin at any time; ``surely`` and ``note`` as in the plan of one pattern.
    """

    id: str
    build: str
    title: str
    start: str
    end: str
    who: str | None
    also: tuple[str, ...]
    beside: tuple[str, ...]
    bath: str
    begin_by: str | None
    surely: str | None
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekReport:
    """A plan of all builds that a shop has in hand, with how far it is proven.

    ``findings`` tell of builds that could not be planned, and of the patterns of the others.
    ``ways_out`` holds what would free it where no plan is possible.
    """

    shop: str
    zone: str
    status: str
    summary: str
    builds: tuple[BuildReport, ...]
    steps: tuple[WeekStepReport, ...]
    stages: tuple[Stage, ...]
    conflict: str
    notes: tuple[str, ...]
    findings: tuple[Finding, ...] = ()
    ways_out: tuple[WayOut, ...] = ()


def week_report(table: WeekTable, plan: Plan, findings: tuple[Finding, ...]) -> WeekReport:
    """Return a plan of several builds, its steps in the order of their starts."""
    return WeekReport(
        shop=table.title,
        zone=table.zone,
        status=plan.status,
        summary=table.sentence,
        builds=tuple(_build(build) for build in table.builds),
        steps=tuple(_step(line) for line in table.lines),
        stages=plan.stages,
        conflict=plan.conflict,
        notes=table.notes,
        findings=findings,
    )


def _iso(at: datetime | None) -> str | None:
    return None if at is None else at.isoformat()


def _build(build: BuildLine) -> BuildReport:
    return BuildReport(
        id=build.id,
        title=build.title,
        due=_iso(build.due_at),
        finish=_iso(build.finish_at),
        late_min=build.late_min,
        weight=build.weight,
    )


def _step(line: PlanLine) -> WeekStepReport:
    return WeekStepReport(
        id=line.step,
        build=line.build,
        title=line.title,
        start=line.start_at.isoformat(),
        end=line.end_at.isoformat(),
        who=line.who or None,
        also=line.also,
        beside=line.beside,
        bath=line.bath,
        begin_by=_iso(line.begin_by_at),
        surely=_iso(line.surely_at),
        note=line.note,
    )
