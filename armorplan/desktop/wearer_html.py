"""What a fitting changes, as rich text: findings first, then measures, parts, rows and straps."""

from collections.abc import Iterable
from html import escape

from PySide6.QtCore import QCoreApplication

from armorplan.app.wearer_model import Fitted, MeasureRow
from armorplan.desktop.colours import Colours
from armorplan.desktop.shapes_html import finding_html
from armorplan.pattern.parts import Point


def _say(text: str) -> str:
    return QCoreApplication.translate("wearer", text)


def fitted_html(found: Fitted, colours: Colours) -> str:
    """Return what is told of a fitted pattern; every text is escaped, for names come out of files."""
    told = "".join(finding_html(one, colours) for one in found.findings)
    return "".join(
        (
            f"<h3>{escape(found.name)}</h3>",
            told or f"<p>{escape(_say('Nothing new is amiss.'))}</p>",
            _table(
                _say("Measures, mm"),
                (_say("Measure"), _say("Drawn for"), _say("Now"), _say("How")),
                (_measure(row) for row in found.measures),
                colours,
            ),
            _table(
                _say("Parts, height × width in mm"),
                (_say("Part"), _say("Before"), _say("Now")),
                ((p.name, _by(p.before_mm), _by(p.after_mm)) for p in found.parts),
                colours,
            ),
            _table(
                _say("Rows, holes and spacing in mm"),
                (_say("Row"), _say("Before"), _say("Now")),
                (
                    (
                        row.name,
                        _say("{0} holes, {1}").format(row.holes_before, _span(row.before_mm)),
                        _say("{0} holes, {1}").format(row.holes_after, _span(row.after_mm)),
                    )
                    for row in found.rows
                ),
                colours,
            ),
            _table(
                _say("Straps close round, mm over the padding"),
                (_say("Place"), _say("Before"), _say("Now")),
                ((p.name, _to(p.before_mm), _to(p.after_mm)) for p in found.places),
                colours,
            ),
        )
    )


def _measure(row: MeasureRow) -> tuple[str, str, str, str]:
    now = _say("not taken") if row.over_mm is None else f"{row.over_mm:g}"
    rare = (
        () if row.percentile is None else (_say("percentile {0}").format(f"{row.percentile:.0f}"),)
    )
    return row.name, f"{row.drawn_mm:g}", now, ", ".join(filter(None, (row.why, *rare)))


def _table(
    title: str, heads: tuple[str, ...], rows: Iterable[tuple[str, ...]], colours: Colours
) -> str:
    lines = [
        "<tr>"
        + "".join(
            f'<td style="border-top:1px solid {colours.line}">{escape(cell)}</td>' for cell in row
        )
        + "</tr>"
        for row in rows
    ]
    if not lines:
        return ""
    head = "".join(f'<th align="left">{escape(name)}</th>' for name in heads)
    return (
        f"<p><b>{escape(title)}</b></p>"
        f'<table width="100%" cellpadding="4" cellspacing="0">'
        f'<tr style="background-color:{colours.bar}">{head}</tr>{"".join(lines)}</table>'
    )


def _by(size: Point) -> str:
    return f"{size[0]:.1f} × {size[1]:.1f}"


def _span(spacing: Point) -> str:
    least, most = (f"{mm:.1f}" for mm in spacing)
    return least if least == most else _to(spacing, 1)


def _to(pair: Point, digits: int = 0) -> str:
    return _say("{0} to {1}").format(f"{pair[0]:.{digits}f}", f"{pair[1]:.{digits}f}")
