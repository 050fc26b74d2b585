"""The two sides of an exercise: what is known and the answer; the picture and what is told."""

from collections.abc import Callable, Iterable
from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from armorplan.desktop.widgets.drill_answer_head import GivenPane
from armorplan.desktop.widgets.drill_form import DrillForm
from armorplan.desktop.widgets.drill_judged import DrillTold
from armorplan.desktop.widgets.drill_picture import DrillPicture
from armorplan.practice.drill import AnswerForm

SHARES = (540, 560)
GIVEN_SHARE, GIVEN_ALONE_SHARE, MOST_TOLD_SHARE, MOST_ASKED_SHARE = 0.2, 0.48, 0.5, 0.72
GIVEN_PAD_PX = 8
RIGHT_SHARE = 0.37
"""So much of the height is there for what is known at the picture."""
LEAST_PX, LEAST_LEFT_PX = 44, 140
"""On a screen of 1440 by 900 at a scale of 2 there is no more room than this."""
LEAST_ROW_PX, ROW_PAD_PX = 46, 22
DETAIL_SHARE = 0.85
DAY_SHARE = 0.65
"""So much of its side a day needs; it has no rows to reckon by."""
QWIDGETSIZE_MAX = 16_777_215


class DrillSides(QSplitter):
    """Has what is known above the answer, or where it leaves that too little room, at the picture."""

    def __init__(self, make_picture: Callable[[QWidget], DrillPicture], parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._left = QWidget(self)
        self._right = QSplitter(Qt.Orientation.Vertical, self)
        self.given = GivenPane(self._left)
        # Made in the order of Tab.
        self.picture = make_picture(self._right)
        self.told = DrillTold(self._right)
        self._form: DrillForm | None = None
        self._why: DrillForm | None = None
        self._is_crowded = False
        self._left.setMinimumHeight(LEAST_LEFT_PX)
        self._column = QVBoxLayout(self._left)
        self._column.setContentsMargins(0, 0, 0, 0)
        self.given.setMinimumHeight(LEAST_PX)
        self._column.addWidget(self.given)
        self._column.addStretch(0)
        for widget in (self.picture, self.told):
            self._right.addWidget(widget)
            widget.setMinimumHeight(LEAST_PX)
        for splitter in (self, self._right):
            splitter.setChildrenCollapsible(False)
        self.addWidget(self._left)
        self.addWidget(self._right)
        self.setSizes(list(SHARES))
        self.splitterMoved.connect(lambda _at, _index: self.fit())
        self.given.changed.connect(self.fit)

    def put_in(self, form: DrillForm) -> None:
        """Lay a form out under what is known, and have Tab go through it next."""
        self._form = form
        self._column.insertWidget(self._column.count() - 1, form, 1)
        form.show()
        _chain(self.given, (*_in_turn(self.given), *_in_turn(form)))
        self.fit()

    def ask_beside(self, why: DrillForm) -> None:
        """Ask the second question under the picture: the first one and its answer stay in sight."""
        self._why = why
        self._right.addWidget(why)
        why.show()
        _chain(self.told, _in_turn(why))
        self.share()

    def take_out(self, form: DrillForm) -> None:
        """Have a form no more in the way."""
        self._column.removeWidget(form)
        if self._form is form:
            self._form = None
        if self._why is form:
            self._why = None
            # Out of the splitter at once: it would keep its share until it is deleted.
            form.setParent(self)

    def fit(self) -> None:
        """Have what is known where all of it can be seen, if there is such a place."""
        if self._form is None or self.given.isHidden():
            return
        high = self._left.height()
        needs = self.given.needs_px(self._left.width())
        room = high - _answer_px(self._form, high, self._left.width())
        self._crowd(is_crowded=room < min(needs, high * RIGHT_SHARE))
        if self._is_crowded:
            self.share()
        else:
            self.given.want(max(round(min(needs, room)), LEAST_PX))

    def _crowd(self, *, is_crowded: bool) -> None:
        if is_crowded == self._is_crowded:
            return
        self._is_crowded = is_crowded
        if is_crowded:
            self.given.want(QWIDGETSIZE_MAX)
            self._right.insertWidget(1, self.given)
        else:
            self._column.insertWidget(0, self.given)
        self.given.show()
        self.share()

    def share(self) -> None:
        """Share the right side anew: what is told gets what it needs, the picture what is left."""
        high = max(self._right.height(), 1)
        why = _answer_px(self._why, high, self._right.width()) if self._why else 0
        told = 0 if self.told.isHidden() else self.told.needs_px()
        most = int(high * (MOST_ASKED_SHARE if why else MOST_TOLD_SHARE))
        told = min(told, most)
        why = min(why, most - told)
        given = self._given_px(high, high - told - why) if self._is_crowded else 0
        left = max(high - told - why - given, 0)
        sizes = (left, *((given,) if self._is_crowded else ()), told, why)
        self._right.setSizes([round(size) for size in sizes])

    def _given_px(self, high: int, left: float) -> float:
        """Return how high what is known is at the picture: all of it, as far as that goes."""
        is_alone = self.told.isHidden() and self._why is None
        most = high * (GIVEN_ALONE_SHARE if is_alone else GIVEN_SHARE)
        return min(self.given.needs_px(self._right.width()) + GIVEN_PAD_PX, most, left)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit()


def _answer_px(form: DrillForm, high_px: int, wide_px: int) -> float:
    """Return how high an answer is, about a row for each choice, or its share of the side."""
    drill, known = form.drill, form.needs_px(wide_px)
    if drill.form is AnswerForm.TIMES:
        return high_px * DAY_SHARE
    if known:
        return known
    line = form.fontMetrics().height()
    lines = (line * (1 + DETAIL_SHARE * bool(one.detail)) for one in drill.choices)
    foot = line + ROW_PAD_PX
    return sum(max(LEAST_ROW_PX, high + ROW_PAD_PX) for high in lines) + foot


def _chain(first: QWidget, others: Iterable[QWidget]) -> None:
    """Have Tab go from one to the next."""
    for before, widget in pairwise((first, *others)):
        QWidget.setTabOrder(before, widget)


def _in_turn(form: QWidget) -> list[QWidget]:
    """Return what in a form or a pane can take the keyboard, in the order of Tab."""
    found: list[QWidget] = []
    widget = form.nextInFocusChain()
    while widget is not None and widget is not form:
        if form.isAncestorOf(widget) and widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
            found.append(widget)
        widget = widget.nextInFocusChain()
    return found
