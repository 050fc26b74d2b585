"""What can be done about a step that comes too late.

It is done as usual once the way is open, with another tool, late in spite of it, or left out.
"""

from collections.abc import Collection, Sequence
from dataclasses import replace

from armorplan.geometry.reach.model import Margin, Standing
from armorplan.geometry.reach.words import standing_words, tool_name
from armorplan.orders.recovery.costs import loss_min, sets_what
from armorplan.orders.recovery.minding import held_aside, mend_of, minded, minded_once_open
from armorplan.orders.recovery.model import Bar, Cost, Doing, Means
from armorplan.orders.recovery.moves import Gathered, MoveNote, cost_of, parts_words
from armorplan.orders.recovery.remaking import anew
from armorplan.orders.recovery.scene import HARDER, RecoveryScene
from armorplan.orders.recovery.stuck import StuckStep
from armorplan.orders.recovery.taking_back import can_be_opened, row_name
from armorplan.relations.model import Force
from armorplan.rules.model import SLOWER
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered

LATE_RISK_PCT, LATE_RISK_MORE_PCT, LATE_RISK_MOST_PCT = 15.0, 5.0, 35.0
"""Of what is done late against one rule, more for each further one, and at most."""
LEFT_OUT_RISK_PCT, ONE_OF_ROW_RISK_PCT = 30.0, 10.0
ROW_OF_SOME = 4
"""Of a row of so many one may be left out, unless it turns or holds a strap."""
REACH_RISK_PCT = {
    Standing.FLAT: 0.0,
    Standing.CURVED: 0.1,
    Standing.INSIDE: 0.3,
    Standing.END: 5.0,
}
"""How likely more than on the flat bench a rivet leans or marks the leather there. All risks here: common practice, no source."""
_OF_ALL = frozenset(("dry-before-handling",))
_TOLD = 2
_FEW, _FEW_PARTS = 3, 2
_WAITS = frozenset((StepKind.DRY, StepKind.CURE, StepKind.DRIP))


def put_right(
    scene: RecoveryScene,
    gathered: Gathered,
    stuck: Sequence[StuckStep],
    stands: Collection[str],
) -> frozenset[str]:
    """Gather what can be done about steps that come too late; return those that stand for all.

    Of many that wait for the very same, the last stands for them: they are done with it.
    """
    alike: dict[tuple[bool, frozenset[str]], list[StuckStep]] = {}
    for one in stuck:
        members = frozenset().union(*(bar.of for bar in one.bars))
        alike.setdefault((one.harder, members), []).append(one)
    wanted = set[str]()
    for some in alike.values():
        for group in [some] if len(some) > _FEW else [[one] for one in some]:
            wanted.add(group[-1].step)
            _moves_of(scene, gathered, group, stands)
    gathered.goal.update(wanted)
    return frozenset(wanted)


def _moves_of(
    scene: RecoveryScene,
    gathered: Gathered,
    group: Sequence[StuckStep],
    stands: Collection[str],
) -> None:
    one, step = group[-1], scene.step(group[-1].step)
    minutes = float(sum(_hands(scene, scene.step(each.step)) for each in group))
    wait = float(sum(_wait(scene.step(each.step)) for each in group))
    usual = Doing(
        id=f"do:{step.id}",
        does=step.id,
        title=_title(scene, group),
        cost=Cost(minutes=minutes, wait_min=wait),
    )
    note = _note(scene, step, detail=step.detail)
    mind = minded_once_open(scene, step, stands)
    gathered.add((usual, replace(note, cautions=(*mind, *note.cautions))))
    if _other_tool(scene, gathered, one, stands) or one.harder:
        return
    _in_spite(scene, gathered, group, usual.cost, stands)
    if _is_for_good(scene, group):
        _on_new(scene, gathered, group, stands)


def _is_for_good(scene: RecoveryScene, group: Sequence[StuckStep]) -> bool:
    """Tell whether only a part made anew can have a step in its place: nothing that bars it opens."""
    step = scene.step(group[-1].step)
    members = {member for one in group for bar in one.bars for member in bar.of}
    return (
        len(step.parts) <= _FEW_PARTS
        and not scene.facts.work.sets(step)
        and any(not can_be_opened(scene, member) for member in members)
    )


def _on_new(
    scene: RecoveryScene,
    gathered: Gathered,
    group: Sequence[StuckStep],
    stands: Collection[str],
) -> None:
    step = scene.step(group[-1].step)
    inner = anew(scene, step.parts, stands, {one.step for one in group})
    whole = Doing(
        id=f"anew:{step.id}",
        does=step.id,
        title=inner[0][0].title,
        means=Means.REMAKE,
        in_spite_of=_all_bars(scene, step.id, stands),
        cost=cost_of(inner),
    )
    gathered.add((whole, MoveNote(step=step.id)), inner)


def _hands(scene: RecoveryScene, step: Step) -> int:
    """Return the hands-on minutes of a step; of a drying those of what it dries."""
    return step.minutes if step.attended else scene.lead(step).minutes


def _wait(step: Step) -> int:
    return 0 if step.attended else step.minutes


def _title(scene: RecoveryScene, group: Sequence[StuckStep]) -> str:
    last = late_title(scene, group[-1].step)
    if len(group) == 1:
        return last
    first = late_title(scene, group[0].step)
    return f"{len(group)} steps, from '{first}' to '{last}'"


def _note(
    scene: RecoveryScene, step: Step, *, detail: str, step_id: str | None = None
) -> MoveNote:
    joint = sets_what(scene, step)
    return MoveNote(
        detail=detail,
        tool=step.tool,
        cautions=step.cautions,
        step=step.id if step_id is None else step_id,
        group=row_name(scene, joint) if joint else "",
    )


def _other_tool(
    scene: RecoveryScene, gathered: Gathered, one: StuckStep, stands: Collection[str]
) -> bool:
    """Gather the setting of a joint from inside, where a tool still gets there; tell whether one does."""
    step = scene.step(one.step)
    joint = sets_what(scene, step)
    by_reach = [bar for bar in one.bars if scene.rule_of(bar) in HARDER]
    if joint is None or len(by_reach) < len(one.bars):
        return False
    margin = scene.margin(joint.id, stands)
    if margin is None or margin.standing is Standing.CANNOT:
        return False
    cost = Cost(
        minutes=_minutes_there(scene, step, margin, by_reach),
        risk_pct=REACH_RISK_PCT[margin.standing],
        loss_min=loss_min(scene, joint.parts, stands),
    )
    told = standing_words(scene.facts.shelf, margin)
    deep = margin.standing in (Standing.INSIDE, Standing.END) and margin.tool
    tool = tool_name(scene.facts.shelf, margin.tool) if deep else ""
    aside = held_aside(scene, step, stands)
    how = f"from inside with the {tool}" if tool else "as it stands now"
    how += f", {parts_words(aside)} held aside" if aside else ""
    there = Doing(
        id=f"reach:{step.id}",
        does=step.id,
        title=f"{step.title}, {how}",
        means=Means.OTHER_TOOL if tool else Means.IN_PLACE,
        in_spite_of=_all_bars(scene, step.id, stands),
        cost=cost,
    )
    note = _note(scene, step, detail=f"{told[:1].upper()}{told[1:]}.")
    cautions = tuple(dict.fromkeys((*minded(scene, step, stands), *note.cautions)))
    gathered.add((there, replace(note, tool=tool or note.tool, cautions=cautions)))
    return True


def _minutes_there(scene: RecoveryScene, step: Step, margin: Margin, bars: Sequence[Bar]) -> float:
    """Return the minutes in this state: by reach, and what another rule says that it costs more."""
    told = [scene.told[bar.id].reason for bar in bars if bar.id in scene.told]
    more = max((r.price_min for r in told if r.rule == "open-before-cover"), default=0.0)
    flat_min = scene.flat_min.get(step.id, step.minutes)
    return flat_min * max(1.0, margin.effort) + more


def _all_bars(scene: RecoveryScene, step: str, stands: Collection[str]) -> frozenset[str]:
    """Return the bars of a step that are shut now, and would be if more came back."""
    held = frozenset(stands)
    return frozenset(bar.id for bar in scene.bars_of(step) if bar.of <= held | {step})


def _in_spite(
    scene: RecoveryScene,
    gathered: Gathered,
    group: Sequence[StuckStep],
    cost: Cost,
    stands: Collection[str],
) -> None:
    """Gather that it is lived with: done late, or left out where it cannot be done at all."""
    one, step = group[-1], scene.step(group[-1].step)
    worst = next((bar for bar in one.bars if scene.force_of(bar) is Force.CANNOT), None)
    cannot = worst is not None
    bars = (worst,) if worst else telling(scene, one)
    loss = loss_min(scene, step.parts[:_FEW], stands)
    late_pct = min(LATE_RISK_MOST_PCT, LATE_RISK_PCT + LATE_RISK_MORE_PCT * (len(bars) - 1))
    risk = _left_out_risk(scene, step) if cannot else late_pct
    title = _title(scene, group)
    lived_with = Doing(
        id=f"{'without' if cannot else 'late'}:{step.id}",
        does=step.id,
        title=f"Leave it out: {lowered(title)}" if cannot else f"{title}, late as it is",
        means=Means.AS_IS,
        in_spite_of=_all_bars(scene, step.id, stands),
        cost=Cost(
            minutes=0.0 if cannot else cost.minutes * (1 + SLOWER),
            wait_min=0.0 if cannot else cost.wait_min,
            risk_pct=risk,
            loss_min=loss,
        ),
        leaves=f"Left out: {lowered(title)}." if cannot else bars[0].why,
    )
    left_out = MoveNote(step=step.id, left_out=True)
    mends = tuple(dict.fromkeys(mend_of(scene, bar) for bar in bars[:_TOLD]))
    late = _note(scene, scene.lead(step), detail=" ".join(mends), step_id=step.id)
    late = replace(late, cautions=tuple(dict.fromkeys((*filter(None, mends), *late.cautions))))
    gathered.add((lived_with, left_out if cannot else late))


def telling(scene: RecoveryScene, one: StuckStep) -> tuple[Bar, ...]:
    """Return a bar for each rule that a step is late by, the most telling first.

    That wet leather takes prints is said of all that touches it; what else speaks against it says more.
    """
    by_rule = {scene.rule_of(bar): bar for bar in reversed(one.bars)}
    return tuple(
        by_rule[rule] for rule in sorted(by_rule, key=lambda rule: (rule in _OF_ALL, rule))
    )


def late_title(scene: RecoveryScene, step_id: str) -> str:
    """Return the title of a step that comes too late; a drying that lacks what it dries is told by that."""
    step = scene.step(step_id)
    lead = scene.lead(step)
    return step.title if lead is step else f"{lead.title.split(':')[0]}, with its drying"


def _left_out_risk(scene: RecoveryScene, step: Step) -> float:
    joint = sets_what(scene, step)
    seam = scene.facts.assembly.seam_of(joint.id) if joint else None
    is_fixed = joint is not None and not scene.facts.plates_under_fittings(joint)
    if seam and is_fixed and len(seam.joints) >= ROW_OF_SOME:
        return ONE_OF_ROW_RISK_PCT
    return LEFT_OUT_RISK_PCT
