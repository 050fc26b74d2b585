"""What is said of a bed to who does not see it."""

from PySide6.QtCore import QCoreApplication

from armorplan.needs.cutting.model import CutterBed


def bed_words(bed: CutterBed) -> str:
    """Return what lies on a bed."""
    names = ", ".join(shape.name for shape in bed.shapes)
    said = QCoreApplication.translate("cut", "{0}, {1} × {2} mm: {3}")
    return said.format(bed.title, f"{bed.wide_mm:g}", f"{bed.high_mm:g}", names)
