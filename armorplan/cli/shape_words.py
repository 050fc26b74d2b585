"""What the shapes tell, as lines to read: by topic, each with its numbers and where they come from."""

import re
from collections.abc import Iterable, Iterator
from itertools import groupby, zip_longest
from textwrap import wrap
from typing import Any

from armorplan.geometry.measures import Measure
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import rank

_WIDE = 100
_NAME_WIDE, _VALUE_WIDE = 34, 9
_IN, _GAP = "    ", "  "
_UNIT = re.compile(r"(?<=\d) (?=mm\b|[°%])")
_Sources = dict[str, int]
"""Each source with its number; most figures share a few."""


def shape_lines(shapes: Iterable[Measure]) -> Iterator[str]:
    """Yield measures by topic, the gravest first: title, verdict, figures with formulas; then their sources. 100 wide."""
    sources: _Sources = {}
    for topic, found in groupby(shapes, key=lambda measure: measure.topic):
        yield ""
        yield f"{topic[:1].upper()}{topic[1:]}"
        for measure in sorted(found, key=lambda measure: rank(measure.severity)):
            yield from _measure(measure, sources)
    if sources:
        yield ""
        yield "Sources"
        for source, number in sources.items():
            head = f"  [{number}]".ljust(len(_IN) + 3)
            yield from wrap(source, _WIDE, initial_indent=head, subsequent_indent=" " * len(head))


def _measure(measure: Measure, sources: _Sources) -> Iterator[str]:
    grave = f"{measure.severity}: " if measure.severity else ""
    told = f"{measure.title} – {grave}{measure.verdict}"
    yield from _wrapped(told, _WIDE, initial_indent=_GAP, subsequent_indent=_IN)
    room = min(_NAME_WIDE, max((len(figure.name) for figure in measure.figures), default=0))
    for figure in measure.figures:
        number = sources.setdefault(figure.source, len(sources) + 1)
        yield from _figure(figure, number, room)


def _figure(figure: Figure, source: int, room: int) -> Iterator[str]:
    """Yield name, number with unit, and formula in columns, each wrapped in its own."""
    value = f"{_number(figure.value)} {figure.unit}".rstrip().rjust(_VALUE_WIDE)
    formula_wide = _WIDE - len(_IN) - room - len(value) - 2 * len(_GAP)
    columns = (
        wrap(figure.name, room),
        [value],
        _wrapped(f"{figure.formula} [{source}]", formula_wide),
    )
    for name, number, words in zip_longest(*columns, fillvalue=""):
        cells = (name.ljust(room), number.ljust(len(value)), words)
        yield f"{_IN}{_GAP.join(cells)}".rstrip()


def _wrapped(text: str, wide: int, **indents: Any) -> list[str]:
    """Return a text in lines that leave numbers with their units."""
    kept = _UNIT.sub("\N{NO-BREAK SPACE}", text)
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in wrap(kept, wide, **indents)]


def _number(value: float) -> str:
    """Return a number as it is told: whole ones whole, others to a tenth, small ones finer."""
    if abs(value - round(value)) < 0.005:  # noqa: PLR2004 - less than is told
        return f"{value:.0f}"
    return f"{value:.1f}" if abs(value) >= 1 else f"{value:.2f}"
