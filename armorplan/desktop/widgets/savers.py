"""What saves the open build to files: its plan for other programs, its bench sheet on paper."""

from typing import NamedTuple

from PySide6.QtWidgets import QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.plan_saver import PlanSaver
from armorplan.desktop.widgets.sheet_saver import SheetSaver


class Savers(NamedTuple):
    """The savers of a window."""

    plan: PlanSaver
    sheet: SheetSaver

    def end_jobs(self) -> None:
        """Wait for what is still being written."""
        self.plan.end_jobs()
        self.sheet.end_jobs()


def savers_of(bridge: Bridge, window: QWidget) -> Savers:
    """Return the savers of a window."""
    return Savers(PlanSaver(bridge, window), SheetSaver(bridge, window))
