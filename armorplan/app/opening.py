"""From a pattern folder to a build at the bench: found in the workshop, or started there."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType
from typing import Protocol

from armorplan.app.begun_record import begun_record
from armorplan.app.carrying import Difference, difference_findings, upgraded
from armorplan.app.derived import Derived, derive_build
from armorplan.app.snapshots import relations_from, shelf_from
from armorplan.files.finding_lines import with_lines
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PATTERN_FILE, PatternFiles, from_texts, read_folder
from armorplan.geometry.measures import Measure
from armorplan.geometry.reach.firm_asked import with_firmness
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import ArmorplanError, FaultyPatternError, WorkshopError
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.ledger.build_orders import BuildOrder
from armorplan.ledger.builds import BuildRecord, next_build_id
from armorplan.ledger.events import Event
from armorplan.pattern.choosing import settled
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.pricing import with_prices
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop

FIRST_SAMPLE = "elbow_cop"


class Builds(Protocol):
    """A workshop's builds."""

    def builds(self) -> tuple[BuildRecord, ...]:
        """Return the builds, oldest first."""
        ...

    def events(self, build_id: str) -> tuple[Event, ...]:
        """Return a build's entries in order."""
        ...

    def add_build(
        self,
        build: BuildRecord,
        events: tuple[Event, ...] = (),
        *,
        order: BuildOrder | None = None,
        former: str = "",
    ) -> None:
        """Keep a new build, all or none: with entries, its order or that of the former one."""
        ...


def first_sample() -> Path:
    """Return the sample a first run opens on."""
    return samples_folder() / FIRST_SAMPLE


def read_checked(source: PatternFiles, shelf: Shelf) -> Pattern:
    """Return a pattern; FaultyPatternError with every finding where it cannot be built."""
    return _read_told(source, shelf)[0]


def _read_told(source: PatternFiles, shelf: Shelf) -> tuple[Pattern, tuple[Finding, ...]]:
    found = read_pattern(source, shelf)
    if found.pattern is None:
        raise FaultyPatternError(found.findings)
    return found.pattern, found.findings


def _telling(derived: Derived, told: tuple[Finding, ...], source: PatternFiles) -> Derived:
    """Return what follows from a pattern, with what was told of its files, each at its line."""
    return replace(derived, findings=(*told, *with_lines(derived.findings, source)))


Chosen = Mapping[str, str]
"""Option id -> choice id, for options decided otherwise than the pattern says."""
AS_WRITTEN: Chosen = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What a pattern folder tells: findings, and what the shapes tell where they could be read."""

    findings: tuple[Finding, ...]
    shapes: tuple[Measure, ...] = ()


def check_folder(
    folder: Path, shelf: Shelf, shop: Shop, *, chosen: Chosen = AS_WRITTEN, firm: bool = False
) -> Checked:
    """Return everything found in a pattern folder: in its files, its shapes, its relations.

    Args:
        folder: the pattern's.
        shelf: what it is checked against.
        shop: who makes it, and where.
        chosen: options decided otherwise than the pattern says.
        firm: tell how firm orders by reach are, too, which takes a while.

    Raises:
        UnreadableError: there is nothing to look at: no folder, no pattern file, no drawing.
        ArmorplanError: there is no such option or choice.
    """
    try:
        derived = derive_folder(folder, shelf, shop, chosen=chosen)
    except FaultyPatternError as error:
        return Checked(findings=error.findings)
    shapes = derived.shapes
    if firm:
        shapes = with_firmness(shapes, derived.pattern, derived.shelf)
    return Checked(findings=derived.findings, shapes=shapes)


def derive_folder(
    folder: Path, shelf: Shelf, shop: Shop, *, chosen: Chosen = AS_WRITTEN
) -> Derived:
    """Return all that follows from a pattern folder, for commands that keep nothing.

    Raises:
        UnreadableError: the folder or its pattern cannot be read.
        ArmorplanError: there is no such option or choice.
    """
    source = read_folder(folder)
    read, told = _read_told(source, shelf)
    pattern = _decided(read, chosen)
    return _telling(derive_build(pattern, shelf, shop, build=pattern.slug), told, source)


def _decided(pattern: Pattern, chosen: Chosen) -> Pattern:
    try:
        return settled(pattern, chosen)
    except ValueError as error:
        raise ArmorplanError(str(error)) from error


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A build found or started in the workshop, with all that follows from its snapshot.

    ``folder`` is where its pattern lies, where that is known; ``difference`` what an upgrade to a
    changed pattern made different.
    """

    build: BuildRecord
    derived: Derived
    folder: Path | None = None
    difference: Difference | None = None


def open_build(
    folder: Path,
    workshop: Builds,
    shelf: Shelf,
    shop: Shop,
    *,
    clock: Clock,
    going_on: str = "",
) -> Opened:
    """Return the running build of this very pattern, or start a new one.

    A build keeps the pattern, the shelf and the relations it was started with. A folder that was
    changed since makes a new build, which takes over what still holds of the former one's ticks
    and timers; the former one stays as it is. A copy of a folder is work of its own: nothing is
    taken over from a build whose folder still holds the pattern elsewhere, unless ``going_on``
    names that build: a sample, say, that was edited at the bench and saved as a copy.

    Raises:
        UnreadableError: the folder or its pattern cannot be read.
        WorkshopError: the workshop file cannot be read or written.
    """
    source = read_folder(folder)
    pattern, told_of_files = _read_told(source, shelf)
    where = str(folder.resolve())
    builds = workshop.builds()
    own, others = _told_apart(builds, pattern, where)
    former = own[-1] if own else next((b for b in others if b.id == going_on), None)
    same = _same(own, pattern)
    if same is not None and not _is_overtaken(same, former, where, workshop):
        opened = resume_build(same, shop, today=shelf)
        derived = _telling(opened.derived, told_of_files, source)
        return replace(opened, derived=derived, folder=folder)
    build_id = next_build_id(pattern.slug, (build.id for build in builds))
    derived = derive_build(pattern, shelf, shop, build=build_id)
    derived = _telling(derived, told_of_files, source)
    events, told = carried_over(former, derived, workshop, shop, build=build_id)
    build = begun_record(
        derived, source, shelf=shelf, at=clock.now(), name=pattern.name, folder=where
    )
    workshop.add_build(build, events, former=former.id if former else "")
    if told is not None:
        findings = (*derived.findings, *difference_findings(told))
        derived = replace(derived, findings=findings)
    elif others:
        findings = (*derived.findings, _copied_finding(others[-1]))
        derived = replace(derived, findings=findings)
    return Opened(build=build, derived=derived, folder=folder, difference=told)


def _same(own: Sequence[BuildRecord], pattern: Pattern) -> BuildRecord | None:
    """Return the latest build of this very pattern."""
    return next((b for b in reversed(own) if b.pattern_hash == pattern.content_hash), None)


def _told_apart(
    builds: tuple[BuildRecord, ...], pattern: Pattern, where: str
) -> tuple[list[BuildRecord], list[BuildRecord]]:
    """Return the pattern's builds that this folder may go on from, and those of its other folders.

    A folder goes on from its own builds; where it has none, from those whose folder was moved away
    or that nobody noted. A folder that still holds the pattern keeps its builds to itself.
    """
    found = [build for build in builds if build.pattern_uuid == pattern.uuid]
    here = [build for build in found if build.folder == where]
    elsewhere = [b for b in found if b.folder != where and _lies_in(b.folder, pattern.uuid)]
    return here or [build for build in found if build not in elsewhere], elsewhere


def _lies_in(folder: str, uuid: str) -> bool:
    """Tell whether a folder, or a bare drawing, still holds the pattern that a build was made of."""
    if not folder:
        return False
    path = Path(folder)
    try:
        return path.is_file() or uuid in (path / PATTERN_FILE).read_text("utf-8").lower()
    except (OSError, ValueError):
        return False


def _copied_finding(other: BuildRecord) -> Finding:
    return Finding(
        code="pattern-of-another-folder",
        severity=Severity.WARNING,
        text=f"The build '{other.id}' of the same pattern belongs to the folder {other.folder}; "
        "nothing was carried over.",
        remedy="If this is work of its own, give this copy a uuid of its own in pattern.toml; if "
        "it is the same work, open that folder.",
    )


def _is_overtaken(
    same: BuildRecord, former: BuildRecord | None, where: str, workshop: Builds
) -> bool:
    """Tell whether work went on in this folder's latest build after an edit that is taken back."""
    if former is None or former.id == same.id or former.folder != where:
        return False
    latest = [
        max((event.at for event in workshop.events(build.id)), default=None)
        for build in (same, former)
    ]
    return latest[1] is not None and (latest[0] is None or latest[1] > latest[0])


def carried_over(
    former: BuildRecord | None, derived: Derived, workshop: Builds, shop: Shop, *, build: str
) -> tuple[tuple[Event, ...], Difference | None]:
    """Return what a new build takes over of a former one's ticks and timers, and what differs."""
    if former is None:
        return (), None
    events = workshop.events(former.id)
    try:
        old = resume_build(former, shop).derived
    except ArmorplanError:  # kept by an older program in a form that this one cannot compare
        return (), Difference(former=former.id, build=build)
    return upgraded(events, old, derived, former=former.id, build=build)


def build_named(builds: tuple[BuildRecord, ...], build_id: str) -> BuildRecord:
    """Return a build by its id; WorkshopError that names the builds there are."""
    for build in builds:
        if build.id == build_id:
            return build
    known = ", ".join(build.id for build in builds) or "none yet"
    message = f"There is no build '{build_id}' in this workshop. Its builds: {known}."
    raise WorkshopError(message)


def resume_build(build: BuildRecord, shop: Shop, *, today: Shelf | None = None) -> Opened:
    """Return a build as it was started, whatever became of its folder; priced as ``today``."""
    slug = build.id.rpartition("-")[0]
    shelf = shelf_from(build.constants_json)
    shelf = with_prices(shelf, today) if today else shelf
    pattern = read_checked(from_texts(slug, dict(build.pattern_files)), shelf)
    kept = relations_from(build.relations_json)
    return Opened(
        build=build,
        derived=derive_build(pattern, shelf, shop, build=build.id, kept=kept),
        folder=Path(build.folder) if build.folder else None,
    )
