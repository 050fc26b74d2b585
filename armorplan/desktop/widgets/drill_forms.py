"""The answer form that fits an exercise, joined to the picture beside it."""

from PySide6.QtWidgets import QWidget

from armorplan.desktop.widgets.drill_form import DrillForm
from armorplan.desktop.widgets.drill_form_day import DayForm
from armorplan.desktop.widgets.drill_form_order import OrderForm
from armorplan.desktop.widgets.drill_form_some import ChoicesForm
from armorplan.desktop.widgets.drill_picture import DrillPicture
from armorplan.practice.drill import AnswerForm, Drill


def make_form(
    drill: Drill, picture: DrillPicture | None = None, parent: QWidget | None = None
) -> DrillForm:
    """Return the form in which an exercise is answered.

    What is in hand in the form is lit on the picture; what is chosen on the picture is taken in
    the form.
    """
    form = _form_of(drill, parent)
    if picture is not None:
        form.pointed.connect(picture.light)
        picture.chosen.connect(form.choose_seen)
    return form


def _form_of(drill: Drill, parent: QWidget | None) -> DrillForm:
    if drill.form is AnswerForm.ORDER:
        return OrderForm(drill, parent)
    if drill.form is AnswerForm.TIMES and drill.day is not None:
        return DayForm(drill, parent)
    return ChoicesForm(drill, parent)
