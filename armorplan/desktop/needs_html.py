"""The take-off as rich text: a table for each section, in the colours of the theme."""

import re
from collections.abc import Iterator
from html import escape
from itertools import pairwise

from armorplan.app.needs_rows import NeedsPage, NeedsRow, NeedsSection
from armorplan.desktop.colours import Colours

_FIRST_PCT = 42
"""Share of the first column; the others share the rest evenly."""
_NUMBER_AND_UNIT = re.compile(r"(\d) (?=(?:dm²|ft²|mm|ml|min|m|g|h|l|oz)\b)")
_SET_IN_PX = 18


def needs_html(page: NeedsPage, colours: Colours) -> str:
    """Return the page; every text in it is escaped, for names come out of patterns."""
    return "".join(_section(section, colours) for section in page.sections)


def _section(section: NeedsSection, colours: Colours) -> str:
    rows = "".join(_rows(section, colours))
    notes = "".join(
        f'<p style="color:{colours.quiet}; margin-top:2px; margin-bottom:2px">{escape(note)}</p>'
        for note in section.notes
    )
    return (
        f'<a name="{section.id}"></a>'
        f'<table width="100%" cellspacing="0" cellpadding="4">{_heads(section, colours)}{rows}'
        f'</table>{notes}<p style="font-size:6pt">&nbsp;</p>'
    )


def _heads(section: NeedsSection, colours: Colours) -> str:
    first, *others = _shares(len(section.heads))
    cells = f'<th align="left" width="{first}%"><big>{escape(section.title)}</big></th>'
    cells += "".join(
        f'<th align="left" width="{share}%">{escape(head)}</th>'
        for head, share in zip(section.heads[1:], others, strict=True)
    )
    return f'<tr style="background-color:{colours.bar}">{cells}</tr>'


def _shares(columns: int) -> tuple[int, ...]:
    if columns == 1:
        return (100,)
    return (_FIRST_PCT, *[(100 - _FIRST_PCT) // (columns - 1)] * (columns - 1))


def _rows(section: NeedsSection, colours: Colours) -> Iterator[str]:
    for row, after in pairwise((*section.rows, None)):
        if row is not None:
            yield _row(row, colours, is_head=after is not None and after.under)


def _row(row: NeedsRow, colours: Colours, *, is_head: bool) -> str:
    """Return a line and its remarks; one that others belong to is heavy."""
    line = f"border-top:1px solid {colours.line};" if not row.under else ""
    tag = "b" if is_head and not row.under else "span"
    first, *others = row.cells
    set_in = f"padding-left:{_SET_IN_PX}px;" if row.under else ""
    cells = f'<td style="{line}{set_in}"><{tag}>{_words(first)}</{tag}></td>'
    cells += "".join(f'<td style="{line}">{_words(cell)}</td>' for cell in others)
    told = "".join(
        f'<tr><td colspan="{len(row.cells)}" style="color:{colours.quiet};'
        f'padding-left:{_SET_IN_PX}px; padding-top:0px">{escape(remark)}</td></tr>'
        for remark in row.remarks
    )
    return f"<tr>{cells}</tr>{told}"


def _words(words: str) -> str:
    """Return words whose numbers stay with their units where the line breaks."""
    return escape(_NUMBER_AND_UNIT.sub("\\1\N{NO-BREAK SPACE}", words))
