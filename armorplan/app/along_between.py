"""Two joints of one row: what setting the row from its other end comes to."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TypeGuard

from armorplan.app.derived import Derived
from armorplan.app.effort_singly import Singly, joints_in
from armorplan.app.why_between import Answer, Between, in_mm
from armorplan.geometry.told import listed, quoted
from armorplan.kernel.units import about_words
from armorplan.relations.index import first_and_members, is_plain, named_steps
from armorplan.relations.model import Before, BeforeAll, Relation
from armorplan.relations.weighing import price_min
from armorplan.rules.reaching import BY_REACH

_NAMED = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherEnd:
    """What the tools' reach has against a row that is set from its other end.

    Attributes:
        bars: relations that it breaks, of each step the gravest: what cannot be done first, of
            such the deepest.
        price_min: minutes that it costs, each joint set before the next is put in.
    """

    bars: tuple[Before | BeforeAll, ...]
    price_min: float

    @property
    def forbids(self) -> tuple[Before | BeforeAll, ...]:
        """The relations that bind."""
        return tuple(bar for bar in self.bars if bar.reason.binds)


def other_end(derived: Derived, found: Between) -> OtherEnd | None:
    """Return what is against the other end; ``None`` where both are not steps of one row.

    Nor where anything but the order along the row puts one before the other.
    """
    steering = found.answer in (Answer.BETTER, Answer.BETTER_LATER)
    row = _row_of(derived, found.first, *found.then) if steering else ()
    within = frozenset(row)
    if not row or not all(_inside(relation, within) for relation in found.chain):
        return None
    place = {step: -derived.place[step] for step in row}
    bars = tuple(_broken(derived.index.relations, place))
    gravest: dict[str, Before | BeforeAll] = {}
    for bar in sorted(bars, key=_graver):
        gravest.setdefault(first_and_members(bar)[0], bar)
    return OtherEnd(bars=tuple(gravest.values()), price_min=_price_min(derived, row))


def other_end_words(derived: Derived, end: OtherEnd) -> str:
    """Say it in a sentence or two."""
    if end.forbids:
        firsts = [first_and_members(bar)[0] for bar in end.forbids]
        titles = quoted(derived.work.step(step).title for step in firsts)
        return (
            "From its other end the row cannot be set: then no tool gets to "
            f"{listed(titles, named=_NAMED)}."
        )
    return (
        "From its other end the row can be set as well, and that costs about "
        f"{about_words(end.price_min)} more."
    )


def _graver(bar: Before | BeforeAll) -> tuple[bool, float, int, float]:
    """Return a key that sorts what binds first, then what lies deepest, then what more comes before."""
    _, members = first_and_members(bar)
    return not bar.reason.binds, -in_mm(bar), -len(frozenset(members)), -price_min(bar)


def _price_min(derived: Derived, row: tuple[str, ...]) -> float:
    """Return what the row takes more from its other end than as the order has it."""
    if derived.effort is None:
        return 0.0
    singly = Singly(derived.effort)
    turned = iter([step for step in reversed(derived.order) if step in row])
    other = [next(turned) if step in row else step for step in derived.order]
    here, there = (
        sum(singly.by_group(joints_in(derived.effort, order)).values())
        for order in (derived.order, other)
    )
    return max(0.0, there - here)


def _row_of(derived: Derived, *steps: str) -> tuple[str, ...]:
    for seam in derived.assembly.seams:
        row = [step.id for joint in seam.joints if (step := derived.work.setting(joint))]
        if set(steps) <= set(row):
            return tuple(row)
    return ()


def _inside(relation: Relation, row: frozenset[str]) -> TypeGuard[Before | BeforeAll]:
    return is_plain(relation) and named_steps(relation) <= row


def _broken(relations: Iterable[Relation], place: dict[str, int]) -> Iterator[Before | BeforeAll]:
    """Yield relations by reach within a row that an order of its steps does not keep."""
    row = frozenset(place)
    for relation in relations:
        by_reach = relation.reason.rule in BY_REACH and not relation.reason.overruled
        if by_reach and _inside(relation, row):
            first, members = first_and_members(relation)
            if place[first] > max(place[member] for member in members):
                yield relation
