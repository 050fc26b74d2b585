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
    """

    step: str
    joint: str
    of: int
    before: Margin
    after: Margin
    dearer_min: float


def both_ways(derived: Derived, step_id: str, others: Iterable[str]) -> BothWays | None:
    """Return how a step's joint is set before and after other steps, with what stands before both done.

    Of several joints the one that the others make dearest is told; of such as are alike the first
    that the step names. Where a relation by reach speaks of the same pair, its numbers are told.
    ``None`` where the step sets no joint that lies in a shell, or the others set none.
    """
    step, others = derived.work.step(step_id), frozenset(others)
    reach = reach_of(derived.pattern, derived.shelf)
    joints = tuple(plain for plain in plain_joints(derived, (step,)) if plain in reach.net.access)
    closing = frozenset(plain_joints(derived, map(derived.work.step, sorted(others))))
    if not joints or not closing:
        return None
    first = min(derived.place[one] for one in (step.id, *others))
    made = set_before(derived, first, step.side)
    found = []
    for joint in joints:
        before = margin(reach.net, joint, made - {joint}, reach.bench)
        after = margin(reach.net, joint, (made | closing) - {joint}, reach.bench)
        found.append((joint, before, after))
    told = max(found, key=_dearer)
    by_rule = max(_by_rules(reach, joints, closing), key=_dearer, default=None)
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
    )


_BeforeAfter = tuple[str, Margin, Margin]


def _dearer(ways: _BeforeAfter) -> float:
    """Return what a joint costs more afterwards, times its minutes; 0 where it cannot be set at all."""
    _, before, after = ways
    return 0.0 if before.standing is Standing.CANNOT else after.effort - before.effort


def _by_rules(
    reach: Reach, joints: tuple[str, ...], closing: frozenset[str]
) -> Iterator[_BeforeAfter]:
    """Yield what the relations by reach say of these joints and of no other step than those asked."""
    rows = {row.id: frozenset(row.joints) for row in reach.rows}
    own = (bar for bar in reach.own_bars if bar.after.standing is Standing.CANNOT)
    for bar in (*reach.bars, *own):
        shut = bar.own.union(*(rows[row] for row in bar.rows))
        if bar.joint in joints and shut <= closing:
            yield bar.joint, bar.before, bar.after
    for each in reach.shut_in:
        if each.joint in joints and closing.issuperset(each.of):
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
    after = standing_words(derived.shelf, found.after)
    if found.before.standing is found.after.standing and found.dearer_min < LEAST_MIN:
        return f"By reach it makes no difference to {which}: {after}, before as after."
    before = standing_words(derived.shelf, found.before)
    if after_told:
        return f"By reach, {which} set before {other}: {before}."
    return f"By reach, {which} set before {other}: {before}. Set after: {after}{_price(found)}"


def _price(found: BothWays) -> str:
    if found.after.standing is Standing.CANNOT:
        return "."
    return f"; that costs about {about_words(found.dearer_min)} more."
