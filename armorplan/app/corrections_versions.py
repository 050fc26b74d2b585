"""The versions of a pattern: what each brought, which builds were cut from it, what that means."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from typing import Any

from armorplan.app.carrying import carried
from armorplan.app.corrections_model import PatternBuild, VersionBuild, VersionRow
from armorplan.app.derived import Derived
from armorplan.app.draft import Draft, Refused
from armorplan.app.made_before import made_before
from armorplan.geometry.told import listed
from armorplan.ledger.events import Event
from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import derive
from armorplan.pattern.own_work import VersionNote
from armorplan.steps.model import StepKind

VERSIONS = "versions"
_CUTTING = (StepKind.CUT, StepKind.PREPARE_STRAP, StepKind.PUNCH)
_TOLD = 3
"""So many parts that differ are told in full; the rest are named."""


def noted(
    draft: Draft,
    *,
    changed: Iterable[str] = (),
    builds: Collection[str] = (),
    note: str = "",
    on: str = "",
) -> Draft | Refused:
    """Return the draft with what its present version brought written down.

    What is noted of the version already stays; what is new is added to it.

    Args:
        draft: the pattern, its version raised.
        changed: what is other than before, as sentences.
        builds: ids of the builds that taught it.
        note: in short; empty leaves what is written.
        on: the day, as ``2026-11-29``; empty leaves what is written.
    """
    version = draft.entry("pattern", "").get("version")
    notes = draft.entry(VERSIONS, "")
    here = next((one for one, held in notes.items() if held.get("version") == version), "")
    held = draft.entry(VERSIONS, here) if here else {}
    values: dict[str, Any] = {
        "note": note or held.get("note"),
        "from_builds": _joined(held.get("from_builds"), builds),
        "on": on or held.get("on"),
        "changed": _joined(held.get("changed"), changed),
    }
    if here:
        new = [(key, value) for key, value in values.items() if value != held.get(key)]
        return draft.put(*(((VERSIONS, here, key), value or None) for key, value in new))
    written = {key: value for key, value in values.items() if value}
    return draft.add_entry(VERSIONS, _free(notes, version), {"version": version, **written})


def _joined(held: Any, more: Iterable[str]) -> list[str]:
    return list(dict.fromkeys((*(held or ()), *more)))


def _free(notes: Collection[str], version: Any) -> str:
    name = f"v{version}"
    return name if name not in notes else f"version_{version}"


def versions_rows(
    draft: Draft,
    builds: Sequence[tuple[PatternBuild, tuple[Event, ...]]] = (),
    *,
    open_build: str = "",
) -> tuple[VersionRow, ...]:
    """Return the versions of a pattern, the newest first.

    Args:
        draft: the pattern as it stands now.
        builds: its builds with their entries.
        open_build: id of the one at the bench.
    """
    pattern = draft.pattern
    if pattern is None:
        return ()
    notes = {note.version: note for note in pattern.versions}
    numbers = {pattern.version, *notes, *(build.version for build, _ in builds)}
    names = {build.build: build.name for build, _ in builds}
    return tuple(
        _row(
            notes.get(number) or VersionNote(id="", version=number),
            names,
            is_now=number == pattern.version,
            builds=tuple(
                _cut_from(draft, build, events, is_open=build.build == open_build)
                for build, events in builds
                if build.version == number
            ),
        )
        for number in sorted(numbers, reverse=True)
    )


def _row(
    note: VersionNote,
    names: dict[str, str],
    *,
    is_now: bool,
    builds: tuple[VersionBuild, ...],
) -> VersionRow:
    return VersionRow(
        version=note.version,
        note=note.note,
        on=note.on,
        from_builds=tuple(names.get(each, each) for each in note.from_builds),
        changed=note.changed,
        is_now=is_now,
        builds=builds,
    )


def _cut_from(
    draft: Draft, build: PatternBuild, events: tuple[Event, ...], *, is_open: bool
) -> VersionBuild:
    return VersionBuild(
        build=build.build,
        name=build.name,
        is_open=is_open,
        is_cut=_is_cut(build),
        text=" ".join(_means(draft, build, events)),
    )


def _is_cut(build: PatternBuild) -> bool:
    """Tell whether leather of a build was cut, or is being cut."""
    return any(
        build.ledger.record(step.id).status is not StepStatus.UNTOUCHED
        for kind in _CUTTING
        for step in build.derived.work.of_kind(kind)
    )


def _means(draft: Draft, build: PatternBuild, events: tuple[Event, ...]) -> Iterator[str]:
    """Say what a build was cut from, and what of its leather differs from the pattern as it is now."""
    pattern = draft.pattern
    if pattern is None:
        return
    if _is_cut(build):
        yield f"{build.name} was cut from version {build.version}."
    else:
        yield f"{build.name} was begun from version {build.version}; no leather of it is cut yet."
    if pattern.content_hash == build.derived.pattern.content_hash:
        yield "Nothing was changed since."
        return
    if pattern.version == build.version:
        yield (
            f"The pattern was changed since, and is still called version {pattern.version}: raise "
            "its version (Ctrl+E) where the two are to be told apart."
        )
    since = [note for note in pattern.versions if note.version > build.version]
    for note in sorted(since, key=lambda each: each.version):
        yield f"Version {note.version} brought: {_brought(note)}"
    if draft.derived is not None:
        yield from _differs(draft.derived, build.derived, events)


def _differs(new: Derived, old: Derived, events: tuple[Event, ...]) -> Iterator[str]:
    """Say what was made to the former drawing of what is drawn otherwise now."""
    key = new.assembly.build
    state = derive(carried(events, old, new, build=key))
    made = made_before(old, new, state)
    if not made:
        yield "Nothing that is cut or punched differs from the pattern as it is now."
    for one in made[:_TOLD]:
        yield from one.sentences
    if rest := made[_TOLD:]:
        names = listed([one.name for one in rest])
        yield f"Made to the former drawing are also {names}."


def _brought(note: VersionNote) -> str:
    told = note.note or " ".join(note.changed)
    return told if told.endswith((".", "!", "?")) else f"{told}." if told else "nothing noted."
