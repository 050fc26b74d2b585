"""What the shapes tell, as lines to read: by topic, each with its numbers and where they come from."""

from collections.abc import Iterable, Iterator
from itertools import groupby
from textwrap import wrap

from armorplan.geometry.measures import Measure
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Severity

_WIDE = 100
_NAME_WIDE, _VALUE_WIDE = 30, 11
_IN, _GAP = "    ", "  "
_SEVERITY = {Severity.ERROR: "error: ", Severity.WARNING: "warning: ", Severity.NOTE: "note: "}


def shape_lines(shapes: Iterable[Measure]) -> Iterator[str]:
    """Yield each measure under the heading of its topic: title, verdict, figures; 100 wide."""
    for topic, found in groupby(shapes, key=lambda measure: measure.topic):
        yield ""
        yield f"{topic[:1].upper()}{topic[1:]}"
        for measure in found:
            yield from _measure(measure)


def _measure(measure: Measure) -> Iterator[str]:
    grave = _SEVERITY[measure.severity] if measure.severity else ""
    told = f"{measure.title} – {grave}{measure.verdict}"
    yield from wrap(told, _WIDE, initial_indent=_GAP, subsequent_indent=_IN)
    room = min(_NAME_WIDE, max((len(figure.name) for figure in measure.figures), default=0))
    for figure in measure.figures:
        yield from _figure(figure, room)


def _figure(figure: Figure, room: int) -> Iterator[str]:
    """Yield name, number and unit in columns, beside them the formula, then the source."""
    told = wrap(f"{figure.formula} ({figure.source})", _WIDE - len(_IN) - room - _VALUE_WIDE - 4)
    named = wrap(figure.name, room) or [""]
    number = f"{_number(figure.value)} {figure.unit}".rstrip().rjust(_VALUE_WIDE)
    for at in range(max(len(told), len(named))):
        name = named[at] if at < len(named) else ""
        words = told[at] if at < len(told) else ""
        value = number if at == 0 else " " * _VALUE_WIDE
        yield f"{_IN}{name.ljust(room)}{_GAP}{value}{_GAP}{words}".rstrip()


def _number(value: float) -> str:
    """Return a number as it is told: whole ones whole, others to a tenth, small ones finer."""
    if abs(value - round(value)) < 0.005:  # noqa: PLR2004 - less than is told
        return f"{value:.0f}"
    return f"{value:.1f}" if abs(value) >= 1 else f"{value:.2f}"
