"""A quick look at what an edit changed: rows, holes, covers, posts and lames about what it touched.

The rest of what follows, above all reach, steps and their order, takes many times as long and is
reckoned afterwards (``Draft.checked``).
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from armorplan.app.draft import Draft
from armorplan.geometry.gathering import QUICK_TOPICS, measures
from armorplan.geometry.measures import Measure
from armorplan.kernel.findings import Finding
from armorplan.pattern.choosing import settled
from armorplan.pattern.one_side import with_only
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

_KEPT = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class QuickLook:
    """What is known of an edit at once.

    Attributes:
        parts: plain ids of the parts that were looked at.
        measures: what rows, covers, bends, posts and lames of these tell now, sound or not.
        gone: what was found before and holds no more.
        new: what is found now and was not before.
    """

    parts: frozenset[str] = frozenset()
    measures: tuple[Measure, ...] = ()
    gone: tuple[Finding, ...] = ()
    new: tuple[Finding, ...] = ()

    def after(self, known: Iterable[Finding]) -> tuple[Finding, ...]:
        """Return what is known to hold now of what was known before the edit."""
        left = [finding for finding in known if finding not in self.gone]
        return tuple(dict.fromkeys((*left, *self.new)))


def touched(before: Draft, after: Draft) -> QuickLook:
    """Return what an edit changed, as far as a quick look shows it.

    Args:
        before: the draft the edit was made of.
        after: the draft it made; one in haste will do.
    """
    was, now = set(before.read_findings), set(after.read_findings)
    old, new = before.pattern, after.pattern
    if old is None or new is None:
        return QuickLook(gone=_but(before.read_findings, now), new=_but(after.read_findings, was))
    old, new = settled(old), settled(new)
    parts = _about(old, new)
    shelf = after.bench.shelf
    former, found = _looked(_some(old, parts), shelf), _looked(_some(new, parts), shelf)
    told, tells = _findings(before.read_findings, former), _findings(after.read_findings, found)
    return QuickLook(
        parts=parts, measures=found, gone=_but(told, set(tells)), new=_but(tells, set(told))
    )


def _findings(read: tuple[Finding, ...], found: tuple[Measure, ...]) -> tuple[Finding, ...]:
    return (*read, *(finding for measure in found for finding in measure.findings))


def _but(findings: Iterable[Finding], others: set[Finding]) -> tuple[Finding, ...]:
    return tuple(dict.fromkeys(finding for finding in findings if finding not in others))


@lru_cache(maxsize=_KEPT)
def _looked(pattern: Pattern, shelf: Shelf) -> tuple[Measure, ...]:
    return measures(pattern, shelf, QUICK_TOPICS)


def _some(pattern: Pattern, parts: frozenset[str]) -> Pattern:
    """Return a part of a pattern that is the same whatever happens to the rest of it."""
    return replace(with_only(pattern, parts), content_hash="")


def _about(old: Pattern, new: Pattern) -> frozenset[str]:
    """Return the parts that an edit touches, with all of their pieces and what is joined to them."""
    changed = _changed(old, new)
    found = set[str]()
    for pattern in (old, new):
        known = {part.id: part.piece for part in pattern.parts}
        pieces = {known[part] for part in changed if part in known}
        found.update(part for part, piece in known.items() if piece in pieces)
        joined = (set(pattern.stack_parts(joint.id)) for joint in pattern.joints)
        moved = (set(movement.parts) for movement in pattern.movements)
        for together in (*joined, *moved):
            if not together.isdisjoint(changed):
                found |= together
    return frozenset(found)


def _changed(old: Pattern, new: Pattern) -> set[str]:
    """Return the parts that differ, and those of joints, forms and movements that do."""
    found = {each.id for each in set(old.parts) ^ set(new.parts)}
    for pattern, other in ((old, new), (new, old)):
        there = set(other.joints)
        for joint in pattern.joints:
            if joint not in there:
                found.update(pattern.stack_parts(joint.id))
        rows = set(other.seams)
        for seam in pattern.seams:
            if seam not in rows:
                found.update(part for joint in seam.joints for part in pattern.stack_parts(joint))
    for form in set(old.forms) ^ set(new.forms):
        found.update(form.parts)
    for movement in set(old.movements) ^ set(new.movements):
        found.update(movement.parts)
    return found
