"""Words of what the shapes tell: at the marks, and as rows of the list beside the picture."""

from PySide6.QtCore import QCoreApplication

from armorplan.app.rows import DiagramMark
from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.shapes_words import standing_sign
from armorplan.desktop.twin_model import TwinRow
from armorplan.geometry.marks import Mark
from armorplan.kernel.findings import Severity

MARK = "mark:"


def mark_label(mark: Mark) -> str:
    """Return what is written at a mark: how grave it is as a sign, and its own words."""
    if mark.severity is None or not mark.label:
        return mark.label
    return f"{standing_sign(mark.severity.value)} {mark.label}"


def shape_row(row: ShapeRow) -> TwinRow:
    """Return what one thing is and what the shapes tell of it."""
    grave = Severity(row.severity) if row.severity else None
    sign = f"{standing_sign(row.severity)} " if grave else ""
    word = QCoreApplication.translate("Severity", grave.value) if grave else ""
    head = f"{word}: " if word else ""
    return TwinRow(
        key=MARK + row.id,
        cells=(f"{sign}{row.title} – {row.verdict}",),
        spoken=f"{head}{row.title}: {row.verdict}",
    )


def shape_twins(rows: tuple[ShapeRow, ...], marks: tuple[DiagramMark, ...]) -> tuple[TwinRow, ...]:
    """Return a row for everything that has marks in the picture."""
    marked = frozenset(mark.measure for mark in marks)
    return tuple(shape_row(row) for row in rows if row.id in marked)
