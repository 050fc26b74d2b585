"""Choosing one or some: check boxes or radio buttons with letters as their keys."""

from collections.abc import Mapping
from dataclasses import replace

from PySide6.QtCore import QEvent, QObject, QSignalBlocker, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QFrame,
    QLabel,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.drill_form_words import (
    chosen_notes,
    chosen_words,
    letters,
    place_words,
    spoken,
)
from armorplan.desktop.drill_marks import Note
from armorplan.desktop.picture_keys import next_in_order
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.drill_form import DrillForm
from armorplan.desktop.widgets.drill_form_choice import (
    CheckChoice,
    ChoiceButton,
    RadioChoice,
    show_face,
)
from armorplan.desktop.widgets.drill_form_face import Face
from armorplan.practice.drill import Answer, AnswerForm, Choice, Drill, Judged

SPACE_PX = 8


class ChoicesForm(DrillForm):
    """Its answer is what is chosen, in the order in which it is shown."""

    def __init__(self, drill: Drill, parent: QWidget | None = None) -> None:
        super().__init__(drill, parent)
        self.setObjectName("drill_choices_form")
        self._is_one = drill.form is AnswerForm.ONE
        self._letters = letters(drill)
        self._shown = _in_shown_order(drill)
        self._has_places = _are_places(drill)
        self.buttons: dict[str, ChoiceButton] = {}
        self._group = QButtonGroup(self)
        self._group.setExclusive(self._is_one)
        self.count = QLabel(self)
        self.count.setObjectName("drill_chosen")
        self._lay_out()
        self.show_answer((), editable=True)

    def _lay_out(self) -> None:
        inner = QWidget(self)
        column = QVBoxLayout(inner)
        column.setContentsMargins(2, 2, 2, 2)
        column.setSpacing(4)
        for place, choice in enumerate(self._shown, start=1):
            column.addWidget(self._button(choice, place, inner))
        column.addStretch(1)
        scroll = QScrollArea(self)
        scroll.setWidget(inner)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setMinimumHeight(120)
        inner.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._scroll, self._inner = scroll, inner
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(scroll, 1)
        whole.addWidget(self.count)

    def _button(self, choice: Choice, place: int, parent: QWidget) -> ChoiceButton:
        face = Face(
            letter=self._letters[choice.id],
            title=choice.title,
            detail=choice.detail,
            place=str(place) if self._has_places else "",
        )
        kind = RadioChoice if self._is_one else CheckChoice
        made: ChoiceButton = kind(face, parent)
        made.setObjectName(f"drill_choice_{face.letter}")
        self._group.addButton(made)
        self.buttons[choice.id] = made
        made.toggled.connect(self._tell)
        made.installEventFilter(self)
        return made

    # --- the form -----------------------------------------------------------------------------

    def answer(self) -> Answer:
        return tuple(one.id for one in self._shown if self.buttons[one.id].isChecked())

    def is_whole(self) -> bool:
        return bool(self.answer())

    def show_answer(self, answer: Answer, *, editable: bool) -> None:
        self._group.setExclusive(False)
        for name, button in self.buttons.items():
            with QSignalBlocker(button):
                button.setChecked(name in answer)
            button.is_fixed = not editable
        self._group.setExclusive(self._is_one)
        self._note({})
        self._count()

    def show_judged(self, drill: Drill, judged: Judged) -> None:
        for button in self.buttons.values():
            button.is_fixed = True
        self._note(chosen_notes(drill, self.answer(), judged))

    def begin(self) -> None:
        chosen = self.answer()
        name = chosen[0] if chosen else self._shown[0].id
        self.buttons[name].setFocus()

    def needs_px(self, wide_px: int) -> int:
        """Return how high all choices are in a width."""
        column = self._inner.layout()
        high = column.heightForWidth(max(wide_px, 1)) if column is not None else 0
        return high + (0 if self._is_one else self.count.sizeHint().height() + SPACE_PX)

    def choose(self, name: str) -> None:
        """Choose one, or choose it no more."""
        button = self.buttons.get(name)
        if button is not None:
            button.setFocus()
            self._scroll.ensureWidgetVisible(button)
            button.click()

    # --- what is shown ------------------------------------------------------------------------

    def _note(self, notes: Mapping[str, Note]) -> None:
        for place, one in enumerate(self._shown, start=1):
            button, note = self.buttons[one.id], notes.get(one.id)
            show_face(button, replace(button.face, note=note))
            at = f"{place_words(place, len(self._shown))}: " if self._has_places else ""
            more = f". {note.words}" if note else ""
            button.setAccessibleName(f"{at}{spoken(self._letters[one.id], one)}{more}")

    def _count(self) -> None:
        self.count.setVisible(not self._is_one)
        self.count.setText(chosen_words(len(self.answer()), len(self._shown)))

    def _tell(self, is_chosen: bool) -> None:
        if self._is_one and not is_chosen:
            return
        self._count()
        self.changed.emit()
        if not self._is_one:
            announce(self, self.count.text())

    # --- events -------------------------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        name = next((key for key, one in self.buttons.items() if one is watched), "")
        if event.type() is QEvent.Type.FocusIn:
            self._scroll.ensureWidgetVisible(self.buttons[name])
            self.pointed.emit(name)
        elif isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            by = _WALKS.get(Qt.Key(event.key()), 0)
            if by and not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
                self._walk(name, by)
                return True
        return super().eventFilter(watched, event)

    def _walk(self, name: str, by: int) -> None:
        """Go to the next choice without choosing it; stop at either end."""
        to = next_in_order(tuple(self.buttons), name, by)
        if to is not None:
            self.buttons[to].setFocus(Qt.FocusReason.TabFocusReason)


_WALKS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}


def _places(drill: Drill) -> tuple[int, ...]:
    """Return the place of each choice in the order that is shown; -1 where it has none there."""
    at = {name: place for place, name in enumerate(drill.shown)}
    found = (
        next((at[name] for name in (one.id, *one.steps) if name in at), -1)
        for one in drill.choices
    )
    return tuple(found)


def _are_places(drill: Drill) -> bool:
    """Tell whether the choices are the places of an order."""
    places = _places(drill)
    return bool(drill.shown) and -1 not in places and len(set(places)) == len(places)


def _in_shown_order(drill: Drill) -> tuple[Choice, ...]:
    if not _are_places(drill):
        return drill.choices
    pairs = sorted(zip(_places(drill), range(len(drill.choices)), strict=True))
    return tuple(drill.choices[at] for _, at in pairs)
