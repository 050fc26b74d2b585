"""Which of two comes first: two choosers, and below them the answer with what it rests on."""

from dataclasses import replace
from itertools import pairwise

from PySide6.QtCore import QEvent, QUrl, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QTextBrowser,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.asking_between import BetweenTold, WorkName
from armorplan.desktop.between_desk import BetweenDesk
from armorplan.desktop.between_html import GO, TRY, BetweenPage, between_page
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.name_chooser import NameChooser
from armorplan.desktop.widgets.reach_section import ReachSection

MARGIN_PX = 8
LEAST_PX = 120
"""Where the answer would have less height, the whole panel scrolls."""
LEAST_BESIDE_PX = 84
"""The same above a section, which says in a picture what is the most of it."""
PICKED = 2
"""So many chosen steps are the two that are asked of."""


class BetweenPanel(QWidget):
    """Asks of two things of the build; ``tried`` says that a tool was tried at a step."""

    tried = Signal(str)

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("between_panel")
        self._bridge = bridge
        self.desk = BetweenDesk(bridge, self)
        self.one = NameChooser("between_one", self.tr("The one of two"), self)
        self.other = NameChooser("between_other", self.tr("The other of two"), self)
        self.swap = QToolButton(self)
        self.answer = QTextBrowser(self)
        self.section = ReachSection(self)
        self._takes = tuple(self._take_button(chooser) for chooser in (self.one, self.other))
        self._told: BetweenTold | None = None
        self._page: BetweenPage | None = None
        self._wanted: tuple[str, ...] = ()
        self._is_named = False
        self._name_all()
        self._lay_out()
        self._connect()
        self._hint()

    def _name_all(self) -> None:
        self.swap.setObjectName("between_swap")
        self.swap.setText("⇅")
        self.swap.setShortcut("Alt+W")
        self.swap.setAccessibleName(self.tr("Swap the two"))
        self.swap.setToolTip(self.tr("Swap the two (Alt+W)"))
        self.swap.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)
        self.answer.setObjectName("between_answer")
        self.answer.setAccessibleName(self.tr("Which of the two comes first"))
        self.answer.setAccessibleDescription(
            self.tr("A step named here leads to it, and lights up the joints it is held against")
        )
        self.answer.setOpenLinks(False)
        self.answer.document().setDocumentMargin(MARGIN_PX)
        self.answer.setMinimumHeight(LEAST_PX)

    def _take_button(self, chooser: NameChooser) -> QPushButton:
        button = QPushButton(self.tr("Chosen"), self)
        button.setObjectName(f"{chooser.objectName()}_take")
        button.setAccessibleName(
            self.tr("{0}: take the chosen step").format(chooser.accessibleName())
        )
        button.setToolTip(self.tr("Take the step that is chosen in the checklist"))
        button.setAutoDefault(False)
        button.clicked.connect(lambda: self._take_chosen(chooser))
        return button

    def _lay_out(self) -> None:
        grid = QGridLayout()
        for line, (words, chooser) in enumerate(
            ((self.tr("&Does"), self.one), (self.tr("come &before"), self.other))
        ):
            label = QLabel(words, self)
            label.setBuddy(chooser)
            grid.addWidget(label, line, 0)
            grid.addWidget(chooser, line, 1)
            grid.addWidget(self._takes[line], line, 2)
        grid.addWidget(self.swap, 0, 3, 2, 1)
        grid.setColumnStretch(1, 1)
        grid.setSpacing(4)
        down = QVBoxLayout(self)
        down.setContentsMargins(MARGIN_PX, 4, MARGIN_PX, 0)
        down.setSpacing(4)
        down.addLayout(grid)
        down.addWidget(self.answer, 1)
        down.addWidget(self.section)
        for before, after in pairwise(
            (self.one, self.other, self.answer, *self._takes, self.swap)
        ):
            QWidget.setTabOrder(before, after)

    def _connect(self) -> None:
        self.one.chosen.connect(self._ask)
        self.other.chosen.connect(self._ask)
        self.swap.clicked.connect(self.swap_both)
        self.answer.anchorClicked.connect(self._follow)
        self.desk.named.connect(self._offer)
        self.desk.told.connect(self._show)
        self.desk.refused.connect(self._refuse)
        self._bridge.opened.connect(self._begin_anew)

    # --- asking -----------------------------------------------------------------------------

    def begin(self) -> None:
        """Start with the step in hand, or with both of two that are chosen."""
        self._wanted = self._bridge.selection.steps[:PICKED]
        if len(self._bridge.selection.steps) != PICKED:
            self._wanted = self._wanted[:1]
        if self._is_named:
            self._take_wanted()
        else:
            self.desk.read_names()
        chooser = self.other if self._wanted else self.one
        chooser.setFocus()
        chooser.line.selectAll()

    def is_blank(self) -> bool:
        """Tell whether nothing stands in it yet."""
        return not (self.one.written() or self.other.written())

    def _begin_anew(self) -> None:
        """Another build is at the bench: it is asked of anew once that is wanted."""
        self._is_named = False
        self._told = self._page = None
        self._hint()
        if self.isVisible():
            self.desk.read_names()

    def _offer(self, names: tuple[WorkName, ...]) -> None:
        self._is_named = True
        self.one.offer(names)
        self.other.offer(names)
        self._take_wanted()
        self._ask()

    def _take_wanted(self) -> None:
        for chooser, step in zip((self.one, self.other), self._wanted, strict=False):
            chooser.take_step(step)
        self._wanted = ()

    def _take_chosen(self, chooser: NameChooser) -> None:
        steps = self._bridge.selection.steps
        if not steps or not chooser.take_step(steps[0]):
            self._bridge.said.emit(self.tr("Choose a step in the checklist first."))

    def swap_both(self) -> None:
        """Ask the other way round."""
        one, other = self.one.currentText(), self.other.currentText()
        self.one.take(other)
        self.other.take(one)

    def _ask(self) -> None:
        one, other = self.one.written(), self.other.written()
        self._told = self._page = None
        if one and other:
            self.section.show_picture(None)
            self.answer.setPlainText(self.tr("Looking …"))
            self.desk.ask(one, other)
        else:
            self._hint()

    # --- answer -----------------------------------------------------------------------------

    def _hint(self) -> None:
        self.section.show_picture(None)
        self.answer.setPlainText(
            self.tr(
                "Choose two steps, rows, parts, joints or forms, and read here whether the one has "
                "to come before the other, why, and what the other order costs."
            )
        )

    def _show(self, told: BetweenTold) -> None:
        self._told = told
        self._draw()
        announce(self.answer, told.row.sentence)

    def _refuse(self, why: str) -> None:
        self._told = self._page = None
        self.section.show_picture(None)
        self.answer.setPlainText(why)
        announce(self.answer, why)

    def _draw(self) -> None:
        self.answer.document().setDefaultFont(self.font())
        picture = self._told.picture if self._told else None
        self.section.show_picture(picture)
        self.answer.setMinimumHeight(LEAST_PX if picture is None else LEAST_BESIDE_PX)
        if self._told is not None:
            self._page = between_page(self._told, colours_of(self.palette()))
            self.answer.setHtml(self._page.html)

    def _follow(self, url: QUrl) -> None:
        """Go to a step that was named, and light the joints it is held against."""
        where = url.toString()
        if self._page is None or self._told is None:
            return
        if where.startswith(TRY):
            self.tried.emit(self._told.setting)
        elif where.startswith(GO):
            target = self._page.targets[int(where.removeprefix(GO))]
            lit = self._bridge.session.choose_steps((target.step, *target.lit))
            self._bridge.select(replace(lit, steps=(target.step,)))

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if not (self._is_named or self.is_blank()):
            self.desk.read_names()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._draw()
