"""Orders tried against the model of reach, joint by joint; what fails becomes a relation.

Relations by whole rows do not tell of rows half made. So the order found is gone through as it
would be made; of each joint that no tool gets to any more the fewest joints in its way are sought,
and it is set before the last of them in the next order, until one holds.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from armorplan.assembly.model import Side, SidedJoint
from armorplan.geometry.reach.bars import Bar
from armorplan.geometry.reach.learning import learn
from armorplan.geometry.reach.sealing import Sealing, bar_of, sealings
from armorplan.geometry.told import listed, quoted
from armorplan.kernel.findings import Finding, Severity
from armorplan.practice.ordering import Exercise, Judgement, judge
from armorplan.relations.index import named_steps
from armorplan.relations.model import BeforeAll, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.overruling import overruled
from armorplan.rules.reach_sides import View, set_on, sides_of, views_of
from armorplan.rules.reaching import out_of_reach
from armorplan.rules.trade.easier_while_open import dearer

MOST_ROUNDS, MOST_STEPS, ROUNDS_OF_MANY = 30, 600, 5
"""So many orders are tried at most; of more steps than so many, so many."""
_REPAIRS = 10
_Order = tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Taught:
    """What trying orders taught.

    Attributes:
        relations: learned, none of them set aside.
        findings: what the last order still leaves out of reach.
    """

    relations: tuple[Relation, ...] = ()
    findings: tuple[Finding, ...] = ()


def refused(facts: Facts, order: Sequence[str]) -> tuple[Relation, ...]:
    """Return of each joint that an order leaves out of reach what it has to be set before.

    Args:
        facts: of the build.
        order: ids of its steps, or of some of them.
    """
    known = _sealings(facts)
    if not known:
        return ()
    walk = _Walk(facts, order)
    found = (
        relation
        for view, sealing in known
        for sided in view.seen(walk.sided, sealing.joint)
        if (of := walk.shut_by(sealing, sided))
        for relation in _barring(facts, view, bar_of(sealing, of))
    )
    return tuple(dict.fromkeys(found))


def _barring(facts: Facts, view: View, bar: Bar) -> Iterator[Relation]:
    """Yield that a joint cannot be set, or what opening a row for it again costs."""
    yield from out_of_reach(facts, view, (bar,))
    yield from dearer(facts, view, (bar,))


def _sealings(facts: Facts) -> list[tuple[View, Sealing]]:
    """Return what can be put out of reach, on the sides where it can."""
    return [
        (view, sealing)
        for view in views_of(facts)
        for sealing in sealings(view.reach.net, view.reach.bench).values()
    ]


class _Walk:
    """Joints in the order in which steps set them, as each side meets them."""

    def __init__(self, facts: Facts, order: Sequence[str]) -> None:
        self.sided = sides_of(facts)
        place = {step: at for at, step in enumerate(order)}
        self._at = {
            joint.id: place[step.id]
            for joint in facts.assembly.joints
            if (step := facts.work.setting(joint.id)) is not None and step.id in place
        }

    def shut_by(self, sealing: Sealing, joint: SidedJoint) -> frozenset[str]:
        """Return the fewest joints set before that leave a joint out of reach; empty: it is not.

        Where those that stay do it alone, what opens again is not among them.
        """
        here = self._at.get(joint.id)
        if here is None:
            return frozenset()
        at = self._set_at(sealing.atoms, joint.side)
        made = sorted((each for each in at if at[each] < here), key=lambda each: (at[each], each))
        stay = [each for each in made if self._stays(each)]
        shut = (some for some in (stay, made) if sealing.is_shut(frozenset(some)))
        return next(map(sealing.one_of, shut), frozenset())

    def _stays(self, plain: str) -> bool:
        return any(each.joint.kind.is_permanent for each in self.sided.get(plain, ()))

    def _set_at(self, joints: Iterable[str], side: Side) -> Mapping[str, int]:
        """Return where joints are all set that a side meets; those that never are, are left out."""
        at = {plain: set_on(self.sided, plain, side, self._at) for plain in joints}
        return {plain: place for plain, place in at.items() if place is not None}


def taught(
    facts: Facts,
    relations: tuple[Relation, ...],
    ordered: Callable[[tuple[Relation, ...]], _Order],
) -> Taught:
    """Return what orders have to keep beside the relations that are known.

    Args:
        facts: of the build.
        relations: as derived.
        ordered: an order that keeps relations; empty where there is none.
    """
    if not _sealings(facts):
        return Taught()
    said = {_said(relation) for relation in relations}

    def again(lessons: tuple[Relation, ...]) -> _Order | None:
        marked, _ = overruled(lessons, facts)
        return ordered((*relations, *marked)) or None

    def fails(order: _Order) -> tuple[Relation, ...]:
        return tuple(each for each in refused(facts, order) if _said(each) not in said)

    many = len(facts.work.steps) > MOST_STEPS
    found = learn(again, fails, most=ROUNDS_OF_MANY if many else MOST_ROUNDS)
    return Taught(relations=found.lessons, findings=tuple(_left_open(facts, found.left)))


def _said(relation: Relation) -> tuple[str, str, frozenset[str]]:
    first = relation.first if isinstance(relation, BeforeAll) else ""
    return relation.reason.rule, first, named_steps(relation)


def _left_open(facts: Facts, left: tuple[Relation, ...]) -> Iterator[Finding]:
    left = tuple(each for each in left if each.reason.binds)
    if not left:
        return
    titles = {facts.work.step(each.first).title for each in left if isinstance(each, BeforeAll)}
    yield Finding(
        code="reach-order-open",
        severity=Severity.WARNING,
        text=f"No order was found in which a tool gets to all of {listed(quoted(sorted(titles)))}: "
        f"{left[0].reason.text}",
        remedy="Set it as soon as its plates are held, or use a longer tool and say its reach_mm in "
        "tools.toml.",
        about=tuple(dict.fromkeys(each for one in left for each in one.reason.about)),
    )


def judge_by_reach(
    facts: Facts,
    asked: tuple[_Order, Sequence[str]],
    relations: tuple[Relation, ...],
    *,
    name: Callable[[str], str] = str,
) -> Judgement:
    """Judge a maker's own order by the relations, and by what it leaves out of reach.

    What mends it is tried too, so that it leaves nothing out of reach either.

    Args:
        facts: of the build.
        asked: the steps, and the maker's order of them.
        relations: as derived.
        name: gives a step's title for its id.
    """
    steps, answer = asked
    said = {_said(relation) for relation in relations}

    def judged(lessons: tuple[Relation, ...]) -> Judgement:
        return judge(Exercise(shown=steps), answer, (*relations, *lessons), name=name)

    lessons: tuple[Relation, ...] = ()
    tried: Sequence[str] | None = answer
    for _ in range(_REPAIRS):
        if tried is None:
            break
        marked, _findings = overruled(refused(facts, tried), facts)
        fresh = tuple(each for each in marked if _said(each) not in said)
        if not fresh and tried is not answer:
            break
        said.update(map(_said, fresh))
        lessons = (*lessons, *fresh)
        repair = judged(lessons).repair
        tried = None if repair is None else repair.order
    return judged(lessons)
