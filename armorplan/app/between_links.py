"""The relations on the way from one thing to another, in words."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from armorplan.app.derived import Derived
from armorplan.app.reason_rows import number_words
from armorplan.geometry.told import quoted
from armorplan.relations.index import first_and_members, is_plain, named_steps
from armorplan.relations.model import AfterAny, Quantity, Relation
from armorplan.relations.weighing import price_min
from armorplan.rules.registry import rule_named

_NAMED = 3
"""Up to so many steps of a blocking set are named one by one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BetweenLink:
    """One relation on the way from the one to the other, or several that say the same along a row.

    Attributes:
        first: id of the step that comes first; empty where the relation puts none first.
        of: ids of the steps before the last of which it comes: one, or the blocking set; along a row
            those that follow, each before the next.
        order: the two sides in words: ''Rivet strap' before the last of …'.
        numbers: as they are said, rounded; ``exact``: the same as they were reckoned.
        price_min: of an 'easier' relation the minutes that keeping it saves.
        note: why the maker overruled it, or what it gives way to where it is not kept.
        likewise: of which other steps it holds too, with their numbers; a whole sentence or empty.
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
    exact: tuple[Quantity, ...]
    price_min: float
    overruled: bool
    note: str
    likewise: str = ""


def links_of(derived: Derived, relations: Iterable[Relation]) -> tuple[BetweenLink, ...]:
    """Return relations in words; steps that follow each other for one and the same reason once."""
    return tuple(_told(derived, run) for run in _runs(derived, relations))


def _runs(derived: Derived, relations: Iterable[Relation]) -> Iterator[list[BetweenLink]]:
    run: list[BetweenLink] = []
    for link in (_link(derived, relation) for relation in relations):
        if run and not _goes_on(run[-1], link):
            yield run
            run = []
        run.append(link)
    if run:
        yield run


def _goes_on(last: BetweenLink, link: BetweenLink) -> bool:
    alike = replace(link, first=last.first, of=last.of, order=last.order) == last
    return alike and bool(link.first) and last.of == (link.first,) and len(link.of) == 1


def _told(derived: Derived, run: Sequence[BetweenLink]) -> BetweenLink:
    if len(run) == 1:
        return run[0]
    first, last = (derived.work.step(one).title for one in (run[0].first, run[-1].of[0]))
    of = tuple(link.of[0] for link in run)
    return replace(run[0], of=of, order=f"'{first}' to '{last}', each before the next")


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
        exact=reason.numbers,
        price_min=price_min(relation),
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
    if first:
        last = "the last of " if len(of) > 1 else ""
        return f"'{derived.work.step(first).title}' before {last}{_steps(derived, of)}"
    if isinstance(relation, AfterAny):
        others = tuple(step for step in of if step != relation.then)
        then = derived.work.step(relation.then).title
        return f"'{then}' after any of {_steps(derived, others)}"
    return f"{_steps(derived, of)} in one go"


def _steps(derived: Derived, steps: Sequence[str]) -> str:
    titles = [derived.work.step(step).title for step in steps]
    if len(titles) > _NAMED:
        return f"{len(titles)} steps, from '{titles[0]}' to '{titles[-1]}'"
    return ", ".join(quoted(titles))
