"""From a pattern folder to a build at the bench: found in the workshop, or started there."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType
from typing import Protocol

from armorplan.app.derived import Derived, derive_build
from armorplan.app.snapshots import relations_from, relations_text, shelf_from, shelf_text
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PatternFiles, from_texts, read_folder
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import ArmorplanError, FaultyPatternError, WorkshopError
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.ledger.builds import BuildRecord, next_build_id
from armorplan.pattern.choosing import settled
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop

FIRST_SAMPLE = "elbow_cop"


class Builds(Protocol):
    """A workshop's builds."""

    def builds(self) -> tuple[BuildRecord, ...]:
        """Return the builds, oldest first."""
        ...

    def add_build(self, build: BuildRecord) -> None:
        """Keep a new build."""
        ...


def first_sample() -> Path:
    """Return the sample a first run opens on."""
    return samples_folder() / FIRST_SAMPLE


def read_checked(source: PatternFiles, shelf: Shelf) -> Pattern:
    """Return a pattern; FaultyPatternError with every finding where it cannot be built."""
    found = read_pattern(source, shelf)
    if found.pattern is None:
        raise FaultyPatternError(found.findings)
    return found.pattern


Chosen = Mapping[str, str]
"""Option id -> choice id, for options decided otherwise than the pattern says."""
AS_WRITTEN: Chosen = MappingProxyType({})


def check_folder(
    folder: Path, shelf: Shelf, shop: Shop, *, chosen: Chosen = AS_WRITTEN
) -> tuple[Finding, ...]:
    """Return everything found in a pattern folder: in its files, its shapes, its relations.

    Raises:
        UnreadableError: there is nothing to look at: no folder, no pattern file, no drawing.
        ArmorplanError: there is no such option or choice.
    """
    found = read_pattern(read_folder(folder), shelf)
    if found.pattern is None:
        return found.findings
    pattern = _decided(found.pattern, chosen)
    derived = derive_build(pattern, shelf, shop, build=pattern.slug)
    return (*found.findings, *derived.findings)


def derive_folder(
    folder: Path, shelf: Shelf, shop: Shop, *, chosen: Chosen = AS_WRITTEN
) -> Derived:
    """Return all that follows from a pattern folder, for commands that keep nothing.

    Raises:
        UnreadableError: the folder or its pattern cannot be read.
        ArmorplanError: there is no such option or choice.
    """
    pattern = _decided(read_checked(read_folder(folder), shelf), chosen)
    return derive_build(pattern, shelf, shop, build=pattern.slug)


def _decided(pattern: Pattern, chosen: Chosen) -> Pattern:
    try:
        return settled(pattern, chosen)
    except ValueError as error:
        raise ArmorplanError(str(error)) from error


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A build found or started in the workshop, with all that follows from its snapshot."""

    build: BuildRecord
    derived: Derived


def open_build(
    folder: Path, workshop: Builds, shelf: Shelf, shop: Shop, *, clock: Clock
) -> Opened:
    """Return the running build of this very pattern, or start a new one.

    A build keeps the pattern, the shelf and the relations it was started with; a folder that
    was changed since makes a new build, and the old one stays as it is.

    Raises:
        UnreadableError: the folder or its pattern cannot be read.
        WorkshopError: the workshop file cannot be read or written.
    """
    source = read_folder(folder)
    pattern = read_checked(source, shelf)
    builds = workshop.builds()
    for build in reversed(builds):
        if (build.pattern_uuid, build.pattern_hash) == (pattern.uuid, pattern.content_hash):
            return resume_build(build, shop)
    build_id = next_build_id(pattern.slug, (build.id for build in builds))
    derived = derive_build(pattern, shelf, shop, build=build_id)
    derived = replace(derived, findings=(*derived.findings, *_former_builds(builds, pattern)))
    build = BuildRecord(
        id=build_id,
        name=pattern.name,
        pattern_uuid=pattern.uuid,
        pattern_version=pattern.version,
        pattern_hash=pattern.content_hash,
        created_at=clock.now(),
        pattern_files=tuple(source.as_texts().items()),
        constants_json=shelf_text(shelf),
        relations_json=relations_text(derived.relations),
    )
    workshop.add_build(build)
    return Opened(build=build, derived=derived)


def _former_builds(builds: tuple[BuildRecord, ...], pattern: Pattern) -> tuple[Finding, ...]:
    """Tell that the pattern was changed since it was last on the bench, and the way back."""
    former = [build.id for build in builds if build.pattern_uuid == pattern.uuid]
    if not former:
        return ()
    return (
        Finding(
            code="pattern-changed",
            severity=Severity.WARNING,
            text=f"The pattern was changed since the build '{former[-1]}' was started: this is a "
            "new build, and nothing is ticked in it.",
            remedy=f"'{former[-1]}' is kept as it was, with all its ticks and timers: "
            f"armorplan window --build {former[-1]} goes on with it.",
        ),
    )


def build_named(builds: tuple[BuildRecord, ...], build_id: str) -> BuildRecord:
    """Return a build by its id; WorkshopError that names the builds there are."""
    for build in builds:
        if build.id == build_id:
            return build
    known = ", ".join(build.id for build in builds) or "none yet"
    message = f"There is no build '{build_id}' in this workshop. Its builds: {known}."
    raise WorkshopError(message)


def resume_build(build: BuildRecord, shop: Shop) -> Opened:
    """Return a build as it was started, whatever became of its folder."""
    slug = build.id.rpartition("-")[0]
    shelf = shelf_from(build.constants_json)
    pattern = read_checked(from_texts(slug, dict(build.pattern_files)), shelf)
    kept = relations_from(build.relations_json)
    return Opened(
        build=build, derived=derive_build(pattern, shelf, shop, build=build.id, kept=kept)
    )
