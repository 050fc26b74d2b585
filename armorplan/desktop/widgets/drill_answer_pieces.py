"""The pieces an exercise is shown with: the form its answer is given in, and the picture beside it."""

from collections.abc import Callable
from typing import NamedTuple

from PySide6.QtWidgets import QWidget

from armorplan.desktop.settings import CALM, Settings
from armorplan.desktop.widgets.drill_form import DrillForm
from armorplan.desktop.widgets.drill_forms import make_form
from armorplan.desktop.widgets.drill_picture import DrillPicture
from armorplan.practice.drill import Drill


class Pieces(NamedTuple):
    """Makes a picture, and a form for each exercise; tests take their own."""

    make_form: Callable[[Drill, DrillPicture | None, QWidget], DrillForm]
    make_picture: Callable[[QWidget], DrillPicture]


def real_pieces(settings: Settings | None = None) -> Pieces:
    """Return the program's own; pictures stand still where the settings ask for less motion."""

    def picture(parent: QWidget) -> DrillPicture:
        return DrillPicture(parent, is_calm=lambda: bool(settings and settings.value(CALM)))

    return Pieces(make_form, picture)
