"""Which of two comes first and why, in words: what the terminal, JSON and the window show."""

from dataclasses import dataclass
from math import inf

from armorplan.app.along_between import OtherEnd, other_end, other_end_words
from armorplan.app.between_likewise import is_told, told_once
from armorplan.app.between_links import BetweenLink, links_of
from armorplan.app.between_picture import between_picture
from armorplan.app.derived import Derived
from armorplan.app.named_work import NamedWork, named_work
from armorplan.app.reach_between import BothWays, reach_words
from armorplan.app.why_between import Answer, Between, why_between
from armorplan.app.why_by_reach import ByReach, alike_words, by_reach
from armorplan.geometry.told import begun
from armorplan.geometry.ways_in import ReachPicture
from armorplan.kernel.units import about_words
from armorplan.relations.model import Force
from armorplan.rules.reaching import BY_REACH, LEAST_MIN


@dataclass(frozen=True, slots=True, kw_only=True)
class BetweenRow:
    """The whole answer.

    Attributes:
        first: id of the step of the first thing that is looked at.
        then: ids of the steps of the other; before the last of them is meant.
        answer: ``why_between.Answer``.
        sentence: the answer in one or two sentences.
        force: of the weakest relation it rests on; empty where none forces it.
        price_min: minutes the other order costs by the relations it would give up, and by reach
            where none of them tells it; of two joints of a row what it costs to set the row from its
            other end.
        chain: the relations it rests on; of two joints of a row first what is against its other end.
        aside: relations that would force it, but are overruled or not kept.
        other_order: how what comes first is set before the other and after it, where reach tells.
    """

    first: str
    first_title: str
    then: tuple[str, ...]
    then_titles: tuple[str, ...]
    side: str
    answer: str
    sentence: str
    force: str
    price_min: float
    chain: tuple[BetweenLink, ...]
    aside: tuple[BetweenLink, ...]
    other_order: tuple[str, ...] = ()


def between_row(derived: Derived, one: str, other: str) -> BetweenRow:
    """Return whether one thing has to be done before another, both as a maker names them.

    Raises:
        ArmorplanError: as ``between_shown``.
    """
    return between_shown(derived, one, other)[0]


def between_shown(
    derived: Derived, one: str, other: str
) -> tuple[BetweenRow, ReachPicture | None]:
    """Return the same, and in section how a tool gets to what comes first, where reach tells.

    Raises:
        ArmorplanError: a name stands for nothing, for several things, or nothing can be asked of the
            two; the message says what would be fine.
    """
    named = named_work(derived, one), named_work(derived, other)
    found = why_between(derived, *named)
    end = other_end(derived, found)
    bars = end.bars if end else ()
    weighed = ByReach(found=found) if bars else by_reach(derived, found)
    found, reach = weighed.found, weighed.ways
    price_min = end.price_min if end and bars else found.price_min + _more_by_reach(found, reach)
    title = {step.id: step.title for step in derived.work.steps}
    told = _Told(found=found, price_min=price_min, end=end if bars else None, by_reach=weighed)
    row = BetweenRow(
        first=found.first,
        first_title=title[found.first],
        then=found.then,
        then_titles=tuple(title[step] for step in found.then),
        side=found.side,
        answer=found.answer,
        sentence=_sentence(derived, told, named),
        force=found.force or (Force.EASIER if weighed.is_own else ""),
        price_min=price_min,
        chain=told_once(derived, links_of(derived, (*bars, *found.chain))),
        aside=told_once(derived, links_of(derived, found.aside)),
        other_order=(*_reach_words(derived, found, reach, named), *alike_words(derived, weighed)),
    )
    return row, between_picture(derived, reach, end, _before(derived, found, named))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    found: Between
    price_min: float
    end: OtherEnd | None
    by_reach: ByReach


_ALL_OF = "all of "
_AFTER = (Answer.LATER, Answer.BETTER_LATER)
_BY_CHOICE = (Answer.BETTER, Answer.BETTER_LATER)


def _reach_words(
    derived: Derived, found: Between, reach: BothWays | None, named: tuple[NamedWork, NamedWork]
) -> tuple[str, ...]:
    if reach is None:
        return ()
    other = _before(derived, found, named)
    return (reach_words(derived, reach, other, after_told=is_told(found, reach)),)


def _before(derived: Derived, found: Between, named: tuple[NamedWork, NamedWork]) -> str:
    """Say which of the two comes second."""
    one, other = _said(derived, found, named)
    return one if found.answer in _AFTER else other


def _more_by_reach(found: Between, reach: BothWays | None) -> float:
    """Return the minutes that reach adds to the relations given up, where none of them is by reach."""
    if reach is None or found.answer not in _BY_CHOICE:
        return 0.0
    told = any(relation.reason.rule in BY_REACH for relation in found.given_up)
    more = reach.dearer_min
    return more if not told and LEAST_MIN <= more < inf else 0.0


def _sentence(derived: Derived, told: _Told, named: tuple[NamedWork, NamedWork]) -> str:
    found = told.found
    one, other = _said(derived, found, named)
    if found.answer is Answer.FREE:
        said = f"Nothing forces it: {one} may be done before or after {other}."
        return f"{said} {_chosen(found)}{_aside(found)}"
    if found.answer is Answer.MUST:
        return f"Yes: {one} {_has(one)} to be done before {other}{_so(found)}"
    if found.answer is Answer.LATER:
        return f"No, the other way round: {other} has to be done before {one}{_so(found)}"
    if found.answer is Answer.BETTER_LATER:
        one, other = other, one
    other_way = f"Nothing forbids the other order{_price(told)}"
    if told.by_reach.is_own and found.is_first is (found.answer is Answer.BETTER_LATER):
        other_way += " In the order chosen here it is the other way round."
    if told.end is not None:
        other_way = other_end_words(derived, told.end)
    better = (
        f"{one} {'are' if _has(one) == 'have' else 'is'} better done before {other}. {other_way}"
    )
    return begun(better) if found.answer is Answer.BETTER else f"The other way round: {better}"


def _has(one: str) -> str:
    return "have" if one.startswith(_ALL_OF) or one.endswith(")") else "has"


def _said(derived: Derived, found: Between, named: tuple[NamedWork, NamedWork]) -> tuple[str, str]:
    """Return both things in words: with one step its title, with several what they are together."""
    later = found.answer in (Answer.LATER, Answer.BETTER_LATER)
    one = f"'{derived.work.step(found.first).title}'"
    if not later and 1 < found.held < found.of:
        one += f" (and {found.held - 1} more of the {found.of} of {named[0].said(found.side)})"
    elif not later and found.held > 1:
        one = f"{_ALL_OF}{named[0].said(found.side)}"
    elif found.answer is Answer.FREE and found.of > 1:
        one = f"each of {named[0].said(found.side)}"
    elif later and any(len(steps) > 1 for steps in named[0].by_side.values()):
        one = f"the last of {named[0].said(found.side)}"
    if len(found.then) == 1:
        return one, f"'{derived.work.step(found.then[0]).title}'"
    return one, f"the last of {named[1].said(found.side)}"


_SO = {
    Force.CANNOT: ": it cannot be done the other way round.",
    Force.SPOIL: ": the other way round would spoil the work.",
}


def _so(found: Between) -> str:
    return "." if found.force is None else _SO.get(found.force, ".")


def _price(told: _Told) -> str:
    if told.price_min:
        return f"; it costs about {about_words(told.price_min)} more."
    if told.by_reach.is_out:
        return ", but as the order stands here no tool gets to it then."
    return "; it goes against usual practice."


def _chosen(found: Between) -> str:
    stands = "before" if found.is_first else "after"
    return f"In the order chosen here it stands {stands} it."


def _aside(found: Between) -> str:
    overruled = [r for r in found.aside if r.reason.overruled]
    if overruled:
        note = overruled[0].reason.note
        return f" A relation would force it, but you overruled it{f': {note}' if note else '.'}"
    if found.aside:
        return " A relation would have it so, but the order does not keep it."
    return ""
