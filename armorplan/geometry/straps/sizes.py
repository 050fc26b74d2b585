"""How wide straps are against the hardware on them and the slots they pass, and the tongue's slot."""

from collections.abc import Iterator

from armorplan.geometry.widths import LIMP, is_flat, width_mm
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import FormKind, Thread
from armorplan.pattern.parts import Part, Point
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.wearing import HardwareUse
from armorplan.workshop.shelf import HardwareEntry, Shelf

SLACK_MM = 0.5
"""Leather wider than a bar or slot by no more than this is pressed through (common practice)."""
NARROW_MM = 5.0
"""A strap narrower than its bar by more than this slides to one side (common practice, no source)."""
_SOLID = frozenset({"buckle", "ring", "loop"})


def strap_size_findings(pattern: Pattern, shelf: Shelf) -> Iterator[Finding]:
    """Yield straps unlike their hardware in width, wider than a slot, or without a tongue's slot."""
    for use in pattern.hardware:
        entry = shelf.hardware_entry(use.use)
        if entry is None:
            continue
        for part, at in _straps_on(pattern, use, entry):
            yield from _width(part, width_mm(part, at), use, entry)
        yield from _tongue(pattern, use, entry)
    for thread in pattern.threads:
        yield from _slots(pattern, thread)


def _straps_on(
    pattern: Pattern, use: HardwareUse, entry: HardwareEntry
) -> Iterator[tuple[Part, Point | None]]:
    """Yield the strap that holds the hardware, and those that close on it, each with where it sits.

    Through a stud only the strap that is buttoned on it goes. Which one that is of several on a
    part is not told.
    """
    holder = pattern.part(use.part)
    if entry.kind in _SOLID and _limp(holder):
        yield holder, _sits_at(pattern, use)
    alone = sum(other.part == use.part for other in pattern.hardware) == 1
    for place in pattern.strap_places:
        strap = pattern.part(place.strap)
        if place.meets == use.part and alone and use.count == 1 and _limp(strap):
            holes = [pattern.hole(hole).centre for hole in place.holes]
            yield strap, holes[len(holes) // 2] if holes else None


def _limp(part: Part) -> bool:
    return part.kind in LIMP and is_flat(part)


def _sits_at(pattern: Pattern, use: HardwareUse) -> Point | None:
    """Return where a strap is folded round its hardware: its one fold, or amid the holes of it."""
    folds = [
        form.axis
        for form in pattern.forms
        if form.kind is FormKind.FOLD and use.part in form.parts and form.axis is not None
    ]
    if len(folds) == 1:
        (x0, y0), (x1, y1) = folds[0]
        return (x0 + x1) / 2, (y0 + y1) / 2
    for joint in use.held_by:
        holes = [pattern.hole(hole) for hole in pattern.joint(joint).stack]
        own = [hole.centre for hole in holes if hole.part == use.part]
        if len(own) > 1:
            return sum(x for x, _ in own) / len(own), sum(y for _, y in own) / len(own)
    return None


def _width(
    part: Part, wide_mm: float, use: HardwareUse, entry: HardwareEntry
) -> Iterator[Finding]:
    over_mm = wide_mm - entry.strap_mm
    if over_mm > SLACK_MM:
        yield Finding(
            code="strap-too-wide",
            severity=Severity.WARNING,
            text=f"{part.name} is {wide_mm:.1f} mm wide where {entry.name} ('{use.id}') sits, but "
            f"it takes straps of {entry.strap_mm:g} mm at most: {over_mm:.1f} mm too wide.",
            remedy=f"Draw it {entry.strap_mm:g} mm wide there, or take a wider one.",
            about=(part.id, use.id),
        )
    elif -over_mm > NARROW_MM and entry.kind in _SOLID:
        yield Finding(
            code="strap-narrow",
            severity=Severity.NOTE,
            text=f"{part.name} is {wide_mm:.1f} mm wide where {entry.name} ('{use.id}') sits, "
            f"{-over_mm:.1f} mm narrower than the {entry.strap_mm:g} mm it takes, and slides to "
            "one side.",
            remedy="Take a narrower one, or draw the strap wider, unless it is meant.",
            about=(part.id, use.id),
        )


def _tongue(pattern: Pattern, use: HardwareUse, entry: HardwareEntry) -> Iterator[Finding]:
    """Yield a buckle on a strap that has no slot, nor a hole to spare, for the tongue."""
    part = pattern.part(use.part)
    if entry.kind != "buckle" or not _limp(part) or part.slots:
        return
    used = {hole for joint in pattern.joints for hole in joint.stack}
    used |= {hole for place in pattern.strap_places for hole in place.holes}
    if any(hole.id not in used for hole in part.holes):
        return
    yield Finding(
        code="no-slot-for-tongue",
        severity=Severity.NOTE,
        text=f"{part.name} holds {entry.name} ('{use.id}'), but has no slot that the "
        "buckle's tongue goes through.",
        remedy="Draw a slot for it along the strap, over the fold, unless the buckle has no tongue.",
        about=(part.id, use.id),
    )


def _slots(pattern: Pattern, thread: Thread) -> Iterator[Finding]:
    part = pattern.part(thread.part)
    if not _limp(part):
        return
    wide_mm = width_mm(part)
    for slot in (pattern.slot(each) for each in thread.through if pattern.has_slot(each)):
        over_mm = wide_mm - slot.length_mm
        if over_mm > SLACK_MM:
            yield Finding(
                code="strap-too-wide-for-slot",
                severity=Severity.WARNING,
                text=f"{part.name} is {wide_mm:.1f} mm wide, but slot '{slot.id}' in "
                f"{pattern.part(slot.part).name} is {slot.length_mm:.1f} mm long: "
                f"{over_mm:.1f} mm too short.",
                remedy=f"Draw the slot {wide_mm:.1f} mm long or a little more, or the strap narrower.",
                about=(thread.id, part.id, slot.part, slot.id),
            )
