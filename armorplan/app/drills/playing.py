"""How an answer goes at the bench, picture by picture: up to its first break, and what that costs."""

from collections.abc import Collection, Iterable, Iterator, Sequence

from armorplan.app.derived import Derived
from armorplan.app.diagram_rows import DiagramRows
from armorplan.app.drills.ghosts import ghost_marks
from armorplan.app.drills.reach_turns import joints_set, turns
from armorplan.app.drills.reasons import fault_words, title_of
from armorplan.app.drills.source import DrillSource
from armorplan.app.rows import BenchState, Diagram
from armorplan.geometry.reach.model import Standing
from armorplan.orders.consequence import consequences
from armorplan.practice.drill import Because, Frame
from armorplan.relations.index import RelationIndex, index_relations, is_plain
from armorplan.relations.model import Before, Force, Relation


def frames(
    source: DrillSource,
    order: Sequence[str],
    *,
    done: Sequence[str] = (),
    left: Sequence[str] = (),
    because: Sequence[Because] = (),
) -> tuple[Frame, ...]:
    """Return how an order goes: each step up to the first that breaks a relation, and one more.

    The one more shows what can no more be done as it should, and which joints nothing reaches any
    more. Only these steps and those done before them are looked at: what an exercise leaves out is
    taken for done in its turn.

    Args:
        source: the build.
        order: the answer; a wrong one is played as far as it goes.
        done: what is done before it, in order.
        left: steps of the exercise that are still to do behind it.
        because: the reasons as they are told of the answer; of several that a step breaks at once,
            the same is told here.
    """
    derived, now = source.derived, list(done)
    told_first = [one.text for one in because]
    steps = dict.fromkeys((*done, *order, *left))
    index = index_relations(tuple(steps), derived.relations)
    told = [Frame(done=tuple(now), said=_begun(derived, done))]
    for step in order:
        broken = sorted(
            consequences(step, now, index), key=lambda one: _place(one.reason.text, told_first)
        )
        now.append(step)
        said = fault_words(derived, broken[0], step) if broken else _done_words(derived, step)
        told.append(Frame(done=tuple(now), at=step, said=said))
        shut = tuple(_out_of_reach(derived, now, index))
        if broken or shut:
            told.append(_past(derived, now, broken, shut))
            break
    return tuple(told)


def drill_diagram(
    source: DrillSource,
    done: Collection[str],
    amiss: Collection[str] = (),
    ghosts: Collection[str] = (),
) -> Diagram:
    """Return the parts as they look with these steps done, whatever is done at the bench.

    What the shapes tell is left out: it would give answers away.

    Args:
        source: the build.
        done: steps that are done.
        amiss: steps that can no more be done as they should; their joints are shown as missed.
        ghosts: joints out of reach; what was to lie there is outlined.
    """
    derived, made = source.derived, frozenset(done)
    lost = frozenset(ghosts)
    missed = frozenset(amiss) | {
        step.id for joint in lost if (step := derived.work.setting(joint)) is not None
    }

    def state_of(step: str) -> BenchState:
        if step in made:
            return BenchState.DONE
        return BenchState.MISSED if step in missed else BenchState.WAITING

    rows = DiagramRows(derived).at(state_of)
    return Diagram(
        parts=rows.parts,
        holes=rows.holes,
        joints=rows.joints,
        marks=tuple(ghost_marks(derived, sorted(lost))),
    )


def _place(text: str, told: Sequence[str]) -> int:
    return told.index(text) if text in told else len(told)


def _begun(derived: Derived, done: Sequence[str]) -> str:
    if not done:
        return "Nothing is done yet."
    last = title_of(derived, done[-1])
    steps = "1 step is" if len(done) == 1 else f"{len(done)} steps are"
    return f"{steps} done, the last of them '{last}'."


def _done_words(derived: Derived, step: str) -> str:
    return f"Done: {title_of(derived, step)}."


def _past(
    derived: Derived, done: Sequence[str], broken: Sequence[Relation], shut: Sequence[str]
) -> Frame:
    """Return the picture after the break: what comes too late now, and what is out of reach."""
    made = frozenset(done)
    late = dict.fromkeys(step for each in broken for step in _late(each) if step not in made)
    ghosts = dict.fromkeys((*_shut_off(derived, broken, made), *shut))
    lost = [derived.work.setting(joint) for joint in ghosts]
    amiss = dict.fromkeys((*late, *(step.id for step in lost if step is not None)))
    return Frame(
        done=tuple(done),
        said=_past_words(derived, tuple(amiss), tuple(ghosts)) or broken[0].reason.text,
        amiss=tuple(amiss),
        ghosts=tuple(ghosts),
    )


def _past_words(derived: Derived, amiss: Sequence[str], ghosts: Sequence[str]) -> str:
    shut = [step for step in amiss if not set(joints_set(derived, (step,))).isdisjoint(ghosts)]
    late = [step for step in amiss if step not in shut]
    words = [f"No tool gets to '{title_of(derived, step)}' any more." for step in shut]
    words += [f"'{title_of(derived, step)}' comes too late now." for step in late]
    return " ".join(words)


def _late(relation: Relation) -> Iterator[str]:
    if is_plain(relation):
        yield relation.first


def _shut_off(
    derived: Derived, broken: Iterable[Relation], made: Collection[str]
) -> Iterator[str]:
    """Yield the joints that a broken relation says can never be set now.

    What a rule has done 'before all of', or the maker before one thing, cannot be done behind it.
    Of one thing before another the trade's rules mean, as a rule, that the other cannot be done yet.
    """
    for relation in broken:
        own_or_all = bool(relation.reason.own_id) or not isinstance(relation, Before)
        if is_plain(relation) and own_or_all and relation.reason.force is Force.CANNOT:
            yield from joints_set(derived, [relation.first] if relation.first not in made else [])


def _out_of_reach(derived: Derived, done: Sequence[str], index: RelationIndex) -> Iterator[str]:
    """Yield the joints of the steps left that the last step has put out of every tool's reach.

    Relations by whole rows do not tell of rows half made; reach itself does.
    """
    if not joints_set(derived, done[-1:]):
        return
    made = frozenset(done)
    for step in index.steps:
        for turn in turns(derived, step, done[:-1], done[-1:]) if step not in made else ():
            if turn.before.standing < Standing.CANNOT == turn.after.standing:
                yield turn.joint
