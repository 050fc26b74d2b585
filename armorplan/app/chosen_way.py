"""A way back from the row that was chosen to the text that is kept, and back to what is left of it."""

from collections.abc import Container, Iterable, Iterator

from armorplan.app.derived import Derived
from armorplan.app.mend_relations import key_of
from armorplan.app.mending import Way
from armorplan.app.moment import BenchMoment
from armorplan.app.same_work import tail
from armorplan.app.trials import fit_of, to_fix
from armorplan.app.way_back_protocol import ChosenWay
from armorplan.app.way_back_rows import WayBack, WayBackMove
from armorplan.assembly.model import SidedJoint
from armorplan.kernel.units import about_words
from armorplan.ledger.events import EventKind
from armorplan.ledger.mends import Mend, MendMove, Refit, SetAside
from armorplan.orders.recovery.model import Means
from armorplan.relations.index import RelationIndex
from armorplan.relations.model import Relation
from armorplan.steps.model import SETS_JOINT, StepKind


def mend_of(moment: BenchMoment, way: WayBack, settles: tuple[str, ...]) -> Mend:
    """Return a way back as it is kept.

    Args:
        moment: how the build stands as it is chosen.
        way: the row.
        settles: names of the mistakes it answers.
    """
    return Mend(
        title=way.title,
        why=_why(way),
        moves=tuple(map(_move, way.moves)),
        settles=settles,
        set_aside=tuple(dict.fromkeys(_set_aside(moment, way.moves))),
        refits=tuple(_refits(moment, way.moves)),
    )


def _why(way: WayBack) -> str:
    """Say why this one, with what it costs."""
    costs = [f"{about_words(way.minutes)} at the bench"]
    if way.wait_min >= 1:
        costs.append(f"{about_words(way.wait_min)} of waiting")
    costs.append(f"a risk of {way.risk_pct:.0f} %")
    told = ", ".join(costs)
    if way.is_best:
        return f"This way back was chosen because none that was found costs less: {told}."
    return f"This way back was chosen though another costs less: {told}."


def _move(move: WayBackMove) -> MendMove:
    return MendMove(
        title=move.title,
        opens=move.opens,
        means=move.means,
        step=tail(move.step),
        clears=tuple(map(tail, move.clears)),
        in_spite_of=move.in_spite_of,
        minutes=move.minutes,
        wait_min=move.wait_min,
        risk_pct=move.risk_pct,
        tool=move.tool,
        detail=move.detail,
        cautions=move.cautions,
        hardware=move.hardware,
        leaves=move.leaves,
        left_out=move.left_out,
    )


def standing_order(moment: BenchMoment) -> tuple[str, ...]:
    """Return what stands, in the order it was done, without what a way back opens first."""
    shut = moment.states.to_open
    return tuple(step for step in moment.ledger.done_order if step not in shut)


def _set_aside(moment: BenchMoment, moves: Iterable[WayBackMove]) -> Iterator[SetAside]:
    """Yield the relations that the moves, done one after the other, do not heed."""
    done = dict.fromkeys(standing_order(moment))
    index = moment.derived.index
    for move in moves:
        if move.opens:
            for step in move.clears:
                done.pop(step, None)
        elif move.step in index.number and move.step not in done:
            for relation in _broken(move.step, done, index):
                if relation.reason.binds:
                    yield key_of(relation)
            done[move.step] = None


def _broken(step: str, done: Container[str], index: RelationIndex) -> Iterator[Relation]:
    """Yield the relations that doing a step now does not keep: it comes too late.

    What should have come before the step and is no move of the way is done in its own time: a coat
    before its drying. Such a relation is kept, though the moves alone do not show it.
    """
    number = index.number[step]
    for at in index.by_first[number]:
        if all(index.steps[member] in done for member in index.members[at]):
            yield index.relations[at]


def _refits(moment: BenchMoment, moves: Iterable[WayBackMove]) -> Iterator[Refit]:
    """Yield the parts that are made anew though their fit was signed off already, or comes too late."""
    derived, done = moment.derived, set(standing_order(moment))
    gone, past = set[str](), set[str]()
    anew: dict[str, None] = {}
    for move in moves:
        if move.opens:
            gone |= {step for step in move.clears if derived.work.has(step)}
        if move.opens and move.means == Means.REMAKE:
            anew |= dict.fromkeys(shared_parts(moment, move.clears))
        if move.step and not move.opens:
            past.add(move.step)
    for part in anew:
        fit = fit_of(derived, part)
        if fit is not None and fit.id in (done - gone) | past:
            yield Refit(part=part, before=tuple(to_fix(derived, part, done - gone)))


def shared_parts(moment: BenchMoment, steps: Iterable[str]) -> tuple[str, ...]:
    """Return the parts that all of these steps touch."""
    known = [
        moment.derived.work.step(step).parts for step in steps if moment.derived.work.has(step)
    ]
    return tuple(part for part in known[0] if all(part in one for one in known)) if known else ()


def waiting_for(moment: BenchMoment, about: Iterable[str], parts: Iterable[str]) -> Iterator[str]:
    """Yield the steps that usually wait until something is mended, by their tails.

    What goes through the hole or row it is about; where that stands, or it is about a part, what
    sets a joint of that part, or tries it.
    """
    derived, stands = moment.derived, set(standing_order(moment))
    named, sets = set(about), (*SETS_JOINT, StepKind.DRY_FIT, StepKind.FIT)
    through = {
        step.id
        for joint in derived.assembly.joints
        if (step := derived.work.setting(joint.id)) and named & set(_named_by(derived, joint))
    } - stands
    touching = (s.id for part in parts for s in derived.work.touching(part, *sets))
    for one in sorted(through) or dict.fromkeys(touching):
        if one not in stands:
            yield tail(one)


def _named_by(derived: Derived, joint: SidedJoint) -> Iterator[str]:
    """Yield what a mistake may name a joint by: itself, its seam, the holes it goes through."""
    yield joint.id
    seam = derived.assembly.seam_of(joint.id)
    if seam is not None:
        yield seam.id
    for part, hole in joint.stack:
        yield f"{part}/{hole}"
        yield f"{part}/{joint.side.tag(hole)}"


def chosen_way(moment: BenchMoment, way: Way) -> ChosenWay:
    """Return a way back as it stands."""
    mending = moment.derived.mending
    steps = mending.steps[way.id] if mending else ()
    # Time that is up is over, though nobody has ticked it yet.
    done = {*standing_order(moment), *moment.dried}
    told = moment.ledger.said(EventKind.MEND)
    return ChosenWay(
        id=way.id,
        title=way.mend.title,
        why=way.mend.why,
        steps=tuple(step for step in steps if step not in done),
        total=len(steps),
        given_up=any(one.id == way.told and one.given_up for one in told),
    )
