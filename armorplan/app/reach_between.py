"""What setting one joint before or after others comes to at the bench: tool, depth, minutes."""

from collections.abc import Iterable
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.geometry.reach.bench import bench_of
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Margin, Standing
from armorplan.geometry.reach.net import reach_net
from armorplan.geometry.reach.words import standing_words
from armorplan.kernel.units import span_words
from armorplan.steps.model import Step

LEAST_MIN = 0.2
"""What costs fewer minutes is told as no difference."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BothWays:
    """How a step's joint is set before others and after them; ``dearer_min`` may be infinite."""

    before: Margin
    after: Margin
    dearer_min: float


def both_ways(derived: Derived, step_id: str, others: Iterable[str]) -> BothWays | None:
    """Return how a joint is set before and after other steps, with what stands before both done.

    ``None`` where the step sets no joint that lies in a shell, or the others set none.
    """
    step = derived.work.step(step_id)
    net = reach_net(derived.pattern)
    joints = [plain for plain in _plain(derived, (step,)) if plain in net.access]
    closing = _plain(derived, map(derived.work.step, others))
    if not joints or not closing:
        return None
    made = _made_before(derived, step, frozenset(others)) - {joints[0]}
    bench = bench_of(derived.pattern, derived.shelf)
    before = margin(net, joints[0], made, bench)
    after = margin(net, joints[0], made | closing, bench)
    return BothWays(
        before=before, after=after, dearer_min=step.minutes * (after.effort - before.effort)
    )


def _made_before(derived: Derived, step: Step, others: frozenset[str]) -> frozenset[str]:
    """Return what the chosen order has made on this side before the step and all of the others."""
    first = min(derived.place[one] for one in (step.id, *others))
    earlier = (derived.work.step(one) for one in derived.order[:first])
    return _plain(derived, (one for one in earlier if one.side in (step.side, "single")))


def _plain(derived: Derived, steps: Iterable[Step]) -> frozenset[str]:
    """Return plain ids of the joints that steps set for good."""
    return frozenset(
        derived.assembly.joint(joint).joint.id
        for step in steps
        for joint in step.joints
        if derived.work.setting(joint) is step
    )


def reach_lines(derived: Derived, one: str, others: tuple[str, ...]) -> tuple[str, ...]:
    """Return in words how a step's joint is set before and after others; empty where reach is silent."""
    found = both_ways(derived, one, others)
    if found is None:
        return ()
    title = derived.work.step(one).title
    before = f"Set before it: {standing_words(derived.shelf, found.before)}."
    after = f"Set after it: {standing_words(derived.shelf, found.after)}"
    return (f"'{title}' by reach. {before} {after}{_price(found)}",)


def _price(found: BothWays) -> str:
    if found.after.standing is Standing.CANNOT:
        return "." if found.before.standing is not Standing.CANNOT else "; so it is either way."
    if found.dearer_min < LEAST_MIN:
        return "; it costs nothing more."
    if found.dearer_min < 1:
        return f"; it costs about {60 * found.dearer_min:.0f} seconds more."
    return f"; it costs about {span_words(round(found.dearer_min))} more."
