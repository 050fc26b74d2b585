"""Which of two comes first and why, in words: what the terminal, JSON and the window show."""

from dataclasses import dataclass
from math import ceil

from armorplan.app.derived import Derived
from armorplan.app.named_work import NamedWork, named_work
from armorplan.app.reach_between import reach_lines
from armorplan.app.reason_rows import number_words
from armorplan.app.why_between import Answer, Between, why_between
from armorplan.kernel.units import span_words
from armorplan.relations.index import first_and_members, is_plain, named_steps
from armorplan.relations.model import AfterAny, Force, Relation
from armorplan.rules.reaching import BY_REACH
from armorplan.rules.registry import rule_named

_NAMED = 3
"""Up to so many steps of a blocking set are named one by one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BetweenLink:
    """One relation on the way from the one to the other.

    Attributes:
        first: id of the step that comes first; empty where the relation puts none first.
        of: ids of the steps before the last of which it comes: one, or the blocking set.
        order: the two sides in words: ''Rivet strap' before the last of …'.
        price_min: of an 'easier' relation the minutes that keeping it saves.
        note: why the maker overruled it, or what it gives way to where it is not kept.
    """

    first: str
    of: tuple[str, ...]
    order: str
    text: str
    force: str
    rule: str
    rule_name: str
    source: str
    numbers: tuple[str, ...]
    price_min: float
    overruled: bool
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BetweenRow:
    """The whole answer.

    Attributes:
        first: id of the step of the first thing that is looked at.
        then: ids of the steps of the other; before the last of them is meant.
        answer: ``why_between.Answer``.
        sentence: the answer in one or two sentences.
        force: of the weakest relation it rests on; empty where none forces it.
        price_min: minutes the other order costs by the relations it would give up.
        chain: the relations it rests on.
        aside: relations that would force it, but are overruled or not kept.
        other_order: how the first is set before the other and after it, where reach tells.
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
        ArmorplanError: a name stands for nothing, for several things, or nothing can be asked of the
            two; the message says what would be fine.
    """
    named = named_work(derived, one), named_work(derived, other)
    found = why_between(derived, *named)
    title = {step.id: step.title for step in derived.work.steps}
    return BetweenRow(
        first=found.first,
        first_title=title[found.first],
        then=found.then,
        then_titles=tuple(title[step] for step in found.then),
        side=found.side,
        answer=found.answer,
        sentence=_sentence(derived, found, named),
        force=found.force or "",
        price_min=found.price_min,
        chain=tuple(_link(derived, relation) for relation in found.chain),
        aside=tuple(_link(derived, relation) for relation in found.aside),
        other_order=reach_lines(derived, found.first, found.then) if _asks_reach(found) else (),
    )


def _asks_reach(found: Between) -> bool:
    """Tell whether reach has a say: where something else already forbids the other order it has none."""
    if found.answer not in (Answer.MUST, Answer.LATER):
        return True
    return any(relation.reason.rule in BY_REACH for relation in found.chain)


# --- sentences --------------------------------------------------------------------------------


def _sentence(derived: Derived, found: Between, named: tuple[NamedWork, NamedWork]) -> str:
    one, other = _said(derived, found, named)
    if found.answer is Answer.FREE:
        said = f"Nothing forces it: {one} may be done before or after {other}."
        return f"{said} {_chosen(found)}{_aside(found)}"
    if found.answer is Answer.MUST:
        return f"Yes: {one} has to be done before {other}{_so(found)}"
    if found.answer is Answer.LATER:
        return f"No, the other way round: {other} has to be done before {one}{_so(found)}"
    if found.answer is Answer.BETTER_LATER:
        one, other = other, one
    other_way = f"Nothing forbids the other order{_price(found)}"
    opening = "" if found.answer is Answer.BETTER else "The other way round: "
    return f"{opening}{_capital(one, opening)} is better done before {other}. {other_way}"


def _capital(words: str, opening: str) -> str:
    return words if opening else words[:1].upper() + words[1:]


def _said(derived: Derived, found: Between, named: tuple[NamedWork, NamedWork]) -> tuple[str, str]:
    """Return both things in words: with one step its title, with several what they are together."""
    later = found.answer in (Answer.LATER, Answer.BETTER_LATER)
    one = f"'{derived.work.step(found.first).title}'"
    if not later and 1 < found.held < found.of:
        one += f" (and {found.held - 1} more of the {found.of} of {named[0].said(found.side)})"
    elif not later and found.held > 1:
        one = f"all of {named[0].said(found.side)}"
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


def _price(found: Between) -> str:
    if 0 < found.price_min < 1:
        return f"; it costs about {60 * found.price_min:.0f} seconds more."
    if found.price_min:
        return f"; it costs about {span_words(ceil(found.price_min))} more."
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


# --- relations --------------------------------------------------------------------------------


def _link(derived: Derived, relation: Relation) -> BetweenLink:
    reason = relation.reason
    rule = rule_named(reason.rule)
    first, of = _ends(derived, relation)
    return BetweenLink(
        first=first,
        of=of,
        order=_order(derived, relation, first, of),
        text=reason.text,
        force=reason.force,
        rule=reason.rule,
        rule_name=rule.name if rule else reason.rule,
        source=reason.source,
        numbers=tuple(number_words(number) for number in reason.numbers),
        price_min=reason.price_min if reason.force is Force.EASIER else 0.0,
        overruled=reason.overruled,
        note=reason.note or derived.not_kept.get(relation, ""),
    )


def _ends(derived: Derived, relation: Relation) -> tuple[str, tuple[str, ...]]:
    first, members = "", named_steps(relation)
    if is_plain(relation):
        first, members = first_and_members(relation)
    place = derived.place
    return first, tuple(sorted(members, key=lambda step: (place.get(step, 0), step)))


def _order(derived: Derived, relation: Relation, first: str, of: tuple[str, ...]) -> str:
    told = ", ".join(f"'{derived.work.step(step).title}'" for step in of)
    if first:
        last = "the last of " if len(of) > 1 else ""
        if len(of) > _NAMED:
            ends = (derived.work.step(step).title for step in (of[0], of[-1]))
            told = "{} steps, from '{}' to '{}'".format(len(of), *ends)
        return f"'{derived.work.step(first).title}' before {last}{told}"
    if isinstance(relation, AfterAny):
        others = ", ".join(
            f"'{derived.work.step(step).title}'" for step in of if step != relation.then
        )
        return f"'{derived.work.step(relation.then).title}' after any of {others}"
    return f"{told} in one go"
