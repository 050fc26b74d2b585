"""A measure as rich text: its sentences, what to do, and its figures with formula and source."""

from collections.abc import Iterator
from html import escape

from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.colours import Colours
from armorplan.desktop.shapes_words import (
    figure_text,
    standing_colour,
    standing_of,
    standing_sign,
    standing_word,
)
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding

_WIDE_PCT = (26, 14, 34, 26)
_NARROW_PCT = (68, 32)
HEADS = ("What", "Number", "How it is reckoned", "Source")


def shape_html(row: ShapeRow, colours: Colours, heads: tuple[str, ...], *, wide: bool) -> str:
    """Return a measure's page; every text is escaped, for names come out of patterns.

    Args:
        row: what is shown.
        colours: the theme's.
        heads: the headings of the figures, in the person's language.
        wide: whether four columns have room; otherwise formula and source stand below each other.
    """
    return "".join(
        (
            f"<p><b>{escape(row.title)}</b></p>",
            _standing(standing_of(row), row.verdict, colours),
            f"<p>{escape(row.text)}</p>" if row.text else "",
            *(finding_html(finding, colours, told=row.text) for finding in row.findings),
            figures_html(row.figures, colours, heads, wide=wide),
        )
    )


def _standing(severity: str, words: str, colours: Colours) -> str:
    colour = standing_colour(severity, colours)
    word = f"{standing_sign(severity)}&nbsp;{escape(standing_word(severity))}"
    return f'<p><span style="color:{colour}"><b>{word}</b></span> – {escape(words)}</p>'


def finding_html(finding: Finding, colours: Colours, *, told: str = "") -> str:
    """Return a finding in a box: how grave, what is wrong if not ``told`` yet, what to do."""
    colour = standing_colour(finding.severity.value, colours)
    sign = standing_sign(finding.severity.value)
    word = escape(standing_word(finding.severity.value))
    wrong = "" if finding.text in told else f"{escape(finding.text)}<br>"
    return (
        f'<table width="100%" cellpadding="6" cellspacing="0"><tr>'
        f'<td style="background-color:{colours.stripe}; border-left:4px solid {colour}">'
        f'<span style="color:{colour}"><b>{sign}&nbsp;{word}:</b></span> {wrong}'
        f"<b>{escape(finding.remedy)}</b></td></tr></table>"
    )


def figures_html(
    figures: tuple[Figure, ...], colours: Colours, heads: tuple[str, ...], *, wide: bool
) -> str:
    """Return the figures as a table: number with unit, formula with the numbers put in, source."""
    if not figures:
        return ""
    what, number, formula, source = map(escape, heads)
    names = (what, number, formula, source) if wide else (what, number)
    lines = _wide(figures, colours) if wide else _narrow(figures, colours)
    shares = _WIDE_PCT if wide else _NARROW_PCT
    head = "".join(
        f'<th align="left" width="{share}%">{name}</th>'
        for name, share in zip(names, shares, strict=True)
    )
    return (
        '<p style="font-size:4pt">&nbsp;</p>'
        f'<a name="figures"></a><table width="100%" cellpadding="4" cellspacing="0">'
        f'<tr style="background-color:{colours.bar}">{head}</tr>{"".join(lines)}</table>'
    )


def _wide(figures: tuple[Figure, ...], colours: Colours) -> Iterator[str]:
    line = f"border-top:1px solid {colours.line}"
    for figure in figures:
        cells = (
            escape(figure.name),
            f"<b>{escape(figure_text(figure))}</b>",
            escape(figure.formula),
            f'<span style="color:{colours.quiet}">{escape(figure.source)}</span>',
        )
        told = "".join(f'<td style="{line}">{cell}</td>' for cell in cells)
        yield f"<tr>{told}</tr>"


def _narrow(figures: tuple[Figure, ...], colours: Colours) -> Iterator[str]:
    """Yield two lines for each figure: name and number, then formula and source."""
    line = f"border-top:1px solid {colours.line}"
    for figure in figures:
        yield (
            f'<tr><td style="{line}">{escape(figure.name)}</td>'
            f'<td style="{line}"><b>{escape(figure_text(figure))}</b></td></tr>'
            f'<tr><td colspan="2" style="padding-top:0px">{escape(figure.formula)}<br>'
            f'<span style="color:{colours.quiet}">{escape(figure.source)}</span></td></tr>'
        )
