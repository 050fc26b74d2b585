"""What setting one joint before or after others comes to at the bench: tool, depth, minutes."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import inf

from armorplan.app.derived import Derived
from armorplan.app.set_before import plain_joints, set_before
from armorplan.geometry.reach.gathered import Reach, reach_of
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Margin, Standing
from armorplan.geometry.reach.words import standing_words
from armorplan.geometry.told import begun, listed
from armorplan.kernel.units import about_words
from armorplan.rules.reaching import LEAST_MIN


@dataclass(frozen=True, slots=True, kw_only=True)
class BothWays:
    """How the joint of a step that gains or loses most is set before others and after them.

    Attributes:
        step: id of the step.
        joint: plain id of the joint.
        of: how many joints of shells the step sets.
        dearer_min: minutes that the step costs more after the others; may be infinite.
        shut_by_then: names of further rows that the order has shut by the time the others are done,
            and not before.
    """

    step: str
    joint: str
    of: int
    before: Margin
    after: Margin
    dearer_min: float
    shut_by_then: tuple[str, ...] = ()


def both_ways(derived: Derived, step_id: str, others: Iterable[str]) -> BothWays | None:
    """Return how a step's joint is set before and after other steps, as the chosen order has it.

    Before: with what stands before both done. After: with all that the order has set by the time the
    last of them is done. Of several joints the one that the others make dearest is told; of such as are alike the first
    that the step names. Where a relation by reach speaks of the same pair, its numbers are told.
    ``None`` where the step sets no joint that lies in a shell, or the others set none.
    """
    step, others = derived.work.step(step_id), frozenset(others)
    reach = reach_of(derived.pattern, derived.shelf)
    joints = tuple(plain for plain in plain_joints(derived, (step,)) if plain in reach.net.access)
    closing = frozenset(plain_joints(derived, map(derived.work.step, sorted(others))))
    if not joints or not closing:
        return None
    at = [derived.place[one] for one in (step.id, *others)]
    made = set_before(derived, min(at), step.side)
    by_then = closing | set_before(derived, max(at), step.side)
    found = []
    for joint in joints:
        before = margin(reach.net, joint, made - {joint}, reach.bench)
        after = margin(reach.net, joint, by_then - {joint}, reach.bench)
        found.append((joint, before, after))
    told = max(found, key=_dearer)
    by_rule = max(_by_rules(reach, joints, (made, closing, by_then)), key=_dearer, default=None)
    if by_rule is not None and not _dearer(told) == inf > _dearer(by_rule):
        told = by_rule
    joint, before, after = told
    minutes = derived.flat_work.step(step.id).minutes * _dearer(told)
    return BothWays(
        step=step.id,
        joint=joint,
        of=len(joints),
        before=before,
        after=after,
        dearer_min=minutes,
        shut_by_then=tuple(_shut_by_then(reach, joint, (made, closing, by_then))),
    )


_BeforeAfter = tuple[str, Margin, Margin]
_States = tuple[frozenset[str], frozenset[str], frozenset[str]]
"""Joints that are made before both, those of the other thing, and what is made once it is done."""


def _shut_by_then(reach: Reach, joint: str, states: _States) -> Iterator[str]:
    """Yield the names of the rows of its shell, but the other thing, that get shut in between."""
    before, closing, by_then = states
    for row in reach.net.shells[reach.net.access[joint].shell].rows:
        joints = frozenset(row.joints)
        if joints <= by_then and not joints <= before and joints.isdisjoint(closing):
            yield row.name


def _dearer(ways: _BeforeAfter) -> float:
    """Return what a joint costs more afterwards, times its minutes; 0 where it cannot be set at all."""
    _, before, after = ways
    return 0.0 if before.standing is Standing.CANNOT else after.effort - before.effort


def _by_rules(reach: Reach, joints: tuple[str, ...], states: _States) -> Iterator[_BeforeAfter]:
    """Yield what the relations by reach say of these joints once those asked, too, are done."""
    before, closing, by_then = states
    rows = {row.id: frozenset(row.joints) for row in reach.rows}
    own = (bar for bar in reach.own_bars if bar.after.standing is Standing.CANNOT)
    for bar in (*reach.bars, *own):
        shut = bar.own.union(*(rows[row] for row in bar.rows))
        told = shut <= by_then and not shut <= before and not shut.isdisjoint(closing)
        if bar.joint in joints and told:
            yield bar.joint, bar.before, bar.after
    for each in reach.shut_in:
        told = by_then.issuperset(each.of) and not closing.isdisjoint(each.of)
        if each.joint in joints and told and not before.issuperset(each.of):
            yield each.joint, each.before, each.after


def reach_words(derived: Derived, found: BothWays, other: str, *, after_told: bool = False) -> str:
    """Say how a step's joint is set before others and after them.

    Args:
        derived: the build.
        found: how it is set.
        other: the others, after 'before'.
        after_told: it is said already how it is set after them.
    """
    title = derived.work.step(found.step).title
    which = f"'{title}', its '{found.joint}'" if found.of > 1 else f"'{title}'"
    outside = found.joint in reach_of(derived.pattern, derived.shelf).bench.outside
    after = standing_words(derived.shelf, found.after, outside=outside)
    if found.before.standing is found.after.standing and found.dearer_min < LEAST_MIN:
        return f"By reach it makes no difference to {which}: {after}, before as after."
    before = standing_words(derived.shelf, found.before, outside=outside)
    rows = listed(list(found.shut_by_then))
    so, are = "in the order chosen here", "is" if len(found.shut_by_then) == 1 else "are"
    if after_told:
        by_then = f" {begun(so)} {rows} {are} shut by then." if rows else ""
        return f"By reach, {which} set before {other}: {before}.{by_then}"
    shut = f", with {rows} shut by then {so}" if rows else ""
    return (
        f"By reach, {which} set before {other}: {before}. Set after{shut}: {after}{_price(found)}"
    )


def _price(found: BothWays) -> str:
    if found.after.standing is Standing.CANNOT:
        return "."
    more = f"about {about_words(found.dearer_min)} more"
    if found.dearer_min < LEAST_MIN:
        return f"; that costs {more}, too little to order them by."
    return f"; that costs {more}."
