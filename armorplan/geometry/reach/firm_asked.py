"""How firm the orders by reach are takes a while to reckon: a line stands for it until it is asked for."""

from collections.abc import Iterable, Iterator

from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.reach.firm_measuring import firm_measures
from armorplan.geometry.reach.firm_words import firm_words
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.margins import gauges
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

FIRM = "reach:firm"
"""The id of the line."""


def firm_line(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield the line that stands for how firm orders are, where plates are ever shaped or shut round."""
    reach = reach_of(pattern, shelf)
    known = gauges(reach.net, reach.bench).values()
    if any(each.hanging.is_shaped(each.shell.parts, each.rows.keys()) for each in known):
        yield _line(
            "reckoned when asked",
            "Which orders by reach turn round with a number a fifth more or less takes a while to "
            "reckon: choose this line, or ask 'armorplan why PATTERN --firm'.",
            tuple(sorted(reach.net.access)),
        )


def firm_measure(pattern: Pattern, shelf: Shelf) -> Measure:
    """Return what the line stands for, also where reach asks for no order at all."""
    none = _line("no orders", firm_words((), orders=0), ())
    return next(firm_measures(pattern, shelf), none)


def with_firmness(
    shapes: Iterable[Measure], pattern: Pattern, shelf: Shelf
) -> tuple[Measure, ...]:
    """Return measures with what the line stands for in its place; without it where there are no orders."""
    return tuple(
        told
        for each in shapes
        for told in (firm_measures(pattern, shelf) if each.id == FIRM else (each,))
    )


def _line(verdict: str, text: str, about: tuple[str, ...]) -> Measure:
    return Measure(
        id=FIRM, topic=Topic.REACH, title="how firm", verdict=verdict, text=text, about=about
    )
