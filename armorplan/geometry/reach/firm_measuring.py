"""How firm the orders by reach are, as a line of what the shapes tell."""

from collections.abc import Iterator

from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.reach.firm_words import firm_words, flips_told
from armorplan.geometry.reach.firmness import (
    SHARE,
    Flip,
    Number,
    firmness,
    orders_by_reach,
)
from armorplan.geometry.reach.gathered import reach_of
from armorplan.kernel.figures import Figure
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

MOST_JOINTS = 300
"""Beyond so many it takes seconds: the page leaves it to the command line."""
_TOLD = 12


def firm_measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield one measure where reach asks for any order, now or with a number moved."""
    every = tuple(sorted(reach_of(pattern, shelf).net.access))
    if len(every) > MOST_JOINTS:
        yield _measure(
            "not reckoned here",
            f"With more than {MOST_JOINTS} joints it takes a while: ask 'armorplan why PATTERN --firm'.",
            about=every,
        )
        return
    found, orders = firmness(pattern, shelf), orders_by_reach(pattern, shelf)
    if not found and not orders:
        return
    flipped = len({(flip.joint, flip.rows, bool(flip.own)) for flip in found})
    every_flip = flips_told(found)
    told, rest = every_flip[:_TOLD], len(every_flip[_TOLD:])
    more = [f"{rest} more: see 'armorplan why PATTERN --firm'."] if rest else []
    yield _measure(
        f"{flipped} flip{'s' * (flipped == 1)}" if found else "all firm",
        " ".join((firm_words(found, orders=orders), *told, *more)),
        _figures(shelf, found),
        tuple(dict.fromkeys(flip.joint for flip in found)) or every,
    )


def _measure(
    verdict: str, text: str, figures: tuple[Figure, ...] = (), about: tuple[str, ...] = ()
) -> Measure:
    return Measure(
        id="reach:firm",
        topic=Topic.REACH,
        title="how firm",
        verdict=verdict,
        text=text,
        figures=figures,
        about=about,
    )


def _figures(shelf: Shelf, found: tuple[Flip, ...]) -> tuple[Figure, ...]:
    numbers = {flip.number.id: flip.number for flip in found}
    return tuple(
        Figure(
            name=number.name,
            value=number.value,
            unit=number.unit,
            formula=f"moved to {1 - SHARE:g} and {1 + SHARE:g} times itself, the others kept",
            source=_source(shelf, number),
        )
        for number in numbers.values()
    )


def _source(shelf: Shelf, number: Number) -> str:
    constants = {
        "row_gape": shelf.constants.row_gape,
        "squash": shelf.constants.squash_raw,
    }
    if number.id in constants:
        return constants[number.id].source
    return next(tool.source for tool in shelf.tools if tool.id == number.id)
