"""A section of a way in on its page: what the painters of leather, tools and lengths share."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from armorplan.desktop.reach_layout import Lay
from armorplan.desktop.widgets.shape_sheet_painting import Sheet, solid
from armorplan.geometry.ways_in import Fits, SectionTool, SectionWay

HEAD_WIDE_PX = 16.0
BEYOND_PX = 30.0
"""The wall goes on so far past what is drawn beside it."""
APART_PX = 12.0


class SectionPage:
    """Where a section lies; depths run from the opening to the right."""

    def __init__(self, painter: QPainter, sheet: Sheet, box: QRectF, lay: Lay) -> None:
        self.painter, self.sheet, self.box, self.lay = painter, sheet, box, lay
        self.colours = sheet.colours
        self.edge = solid(sheet.colours.edge, 1.4)

    def is_span(self, way: SectionWay) -> bool:
        """Tell whether the two bounds of a depth are drawn apart."""
        return (way.along_mm - way.least_mm) * self.lay.scale >= HEAD_WIDE_PX / 2

    def tool_box(self, tool: SectionTool) -> QRectF:
        """Return where a tool lies: along the wall with the joint; outside where it does not go in."""
        lay = self.lay
        left = self.box.left()
        tip = lay.x(tool.reach_mm) if tool.fits is not Fits.NOT else lay.mouth_x - 3
        high = max(tool.thick_mm * lay.scale, 3.0)
        return QRectF(left, lay.roof_y + 1, max(tip - left, 4.0), high)
