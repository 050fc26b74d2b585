"""The take-off as one table of comma-separated values (RFC 4180), for any spreadsheet."""

import csv
from io import StringIO

from armorplan.needs.figures import Figure, figures
from armorplan.needs.model import Needs

COLUMNS = ("section", "item", "figure", "amount", "unit", "note")
_READ_AS_FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""A spreadsheet reckons with a cell that begins so: a name out of a pattern must not be run."""
_DIGITS = 3


def guarded(text: str) -> str:
    """Return a text that a spreadsheet shows and does not reckon with."""
    return f"'{text}" if text.startswith(_READ_AS_FORMULA) else text


def _amount(figure: Figure) -> str:
    return "" if figure.amount is None else f"{figure.amount:.{_DIGITS}f}".rstrip("0").rstrip(".")


def needs_csv(needs: Needs) -> str:
    """Return the table as text, lines ended by CR LF; write it without changing line ends."""
    held = StringIO(newline="")
    table = csv.writer(held)
    table.writerow(COLUMNS)
    for figure in figures(needs):
        words = (figure.section, figure.item, figure.figure)
        table.writerow(
            (
                *map(guarded, words),
                _amount(figure),
                guarded(figure.unit),
                guarded(figure.note),
            )
        )
    return held.getvalue()
