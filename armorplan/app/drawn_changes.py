"""What a saving changes in a pattern's drawings, told as sentences, and kept as a next version."""

from collections.abc import Iterator
from math import dist

from armorplan.app.corrections_versions import noted
from armorplan.app.draft import Draft, Refused
from armorplan.pattern.parts import Part
from armorplan.pattern.pattern import Pattern

_SAME_MM = 0.005
"""Less than this is no change: files round to a hundredth."""


def drawn_changes(old: Pattern, new: Pattern) -> tuple[str, ...]:
    """Return what is drawn otherwise, a sentence a part; of what is only said otherwise, nothing."""
    was, now = ({part.id: part for part in pattern.parts} for pattern in (old, new))
    gone = (f"{part.name}: taken out." for name, part in was.items() if name not in now)
    come = (f"{part.name}: new." for name, part in now.items() if name not in was)
    both = ((was[name], now[name]) for name in was if name in now)
    changed = ((part, list(_changes(former, part))) for former, part in both)
    return (*gone, *come, *(f"{part.name}: {', '.join(told)}." for part, told in changed if told))


def _changes(old: Part, new: Part) -> Iterator[str]:
    was, now = ({hole.id: hole for hole in part.holes} for part in (old, new))
    both = [(was[name], now[name]) for name in was if name in now]
    moved = [far for one, other in both if (far := dist(one.centre, other.centre)) > _SAME_MM]
    if moved:
        yield f"{_holes(len(moved))} moved by up to {max(moved):.1f} mm"
    sizes = sum(abs(one.diameter_mm - other.diameter_mm) > _SAME_MM for one, other in both)
    if sizes:
        yield f"{_holes(sizes)} with another diameter"
    if more := len(now.keys() - was.keys()):
        yield f"{_holes(more)} added"
    if less := len(was.keys() - now.keys()):
        yield f"{_holes(less)} taken out"
    if old.outline != new.outline:
        yield "another outline"
    if old.slots != new.slots:
        yield "other slots"


def _holes(count: int) -> str:
    return f"{count} {'hole' if count == 1 else 'holes'}"


def as_next_version(draft: Draft, *, saved: Draft, above: int) -> Draft | Refused:
    """Return a draft whose drawings were changed as the version above one, with what it brings.

    Args:
        draft: the pattern as it is to be saved.
        saved: the pattern as it was saved last.
        above: the version that may have been cut from: each sitting makes one version at most.
    """
    old, new = saved.pattern, draft.pattern
    told = drawn_changes(old, new) if old and new else ()
    if not told:
        return draft
    raised = draft.raised_above(above)
    if isinstance(raised, Refused):
        return raised
    return noted(raised, changed=told)
