"""Words are broken into lines as full as they can be, whatever their number."""

from itertools import pairwise

import pytest
from PySide6.QtGui import QFont, QFontMetrics

from armorplan.desktop.widgets.checklist_delegate import ROUNDING_PX, broken

TEXT = (
    "Drill out the rivet of the boss row, cut the lantern boss anew, lay it out on leather that is "
    "left, and do again what was done to it: sixteen steps, to the second coat of the finish"
)


@pytest.mark.parametrize("width", [40, 90, 137, 260, 900, 4000])
def test_each_line_holds_as_many_words_as_fit(qapp, width):
    metrics = QFontMetrics(QFont())
    lines = broken(TEXT, metrics, width, 99)
    if width > 90:  # else some words alone are wider, and shortened
        assert " ".join(lines) == TEXT
        room = width - ROUNDING_PX
        assert all(metrics.horizontalAdvance(line) <= room for line in lines)
        for line, after in pairwise(lines):
            assert metrics.horizontalAdvance(f"{line} {after.split()[0]}") > room
    assert len(broken(TEXT, metrics, width, 2)) <= 2
