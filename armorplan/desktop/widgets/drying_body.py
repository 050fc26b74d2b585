"""What stands on the page of a drying, from the verdict to the sources, in a room that scrolls."""

from datetime import datetime, tzinfo

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QVBoxLayout, QWidget

from armorplan.app.shop_air import ShopAir, air_words
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.drying_desk import DryingShown
from armorplan.desktop.drying_words import (
    change_sentence,
    headline,
    picture_words,
    window_rows,
)
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.drying_chooser import DryingTable
from armorplan.desktop.widgets.drying_picture import DryingPicture
from armorplan.desktop.widgets.learned_bar import LearnedBar
from armorplan.desktop.widgets.what_if_bar import WhatIfBar

MARGIN_PX = 6
PICTURE_SHARE = 0.54
LEAST_HIGH_PX, MOST_HIGH_PX = 270, 420
"""So much of the page the picture has, so that the words above and the fields below are seen too."""


class DryingBody(QScrollArea):
    """Holds the page's words, picture and fields, one below the other."""

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("drying_room")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        inside = QWidget(self)
        self.verdict = _words(inside, "drying_verdict")
        self.why = _words(inside, "drying_why")
        self.picture = DryingPicture(inside)
        self.rule = _words(inside, "drying_rule")
        self.what_if = WhatIfBar(inside)
        self.learned = LearnedBar(bridge, inside)
        self.twin = DryingTable(inside)
        self.sources = _words(inside, "drying_sources")
        bold = self.verdict.font()
        bold.setBold(True)
        self.verdict.setFont(bold)
        self.picture.setAccessibleName(self.tr("How far it is dry, and the air it dries in"))
        self.rule.hide()
        self.learned.hide()
        self._lay_out(inside)

    def _lay_out(self, inside: QWidget) -> None:
        down = QVBoxLayout(inside)
        down.setContentsMargins(0, 0, MARGIN_PX, 0)
        for widget in (
            self.verdict,
            self.why,
            self.picture,
            self.rule,
            self.what_if,
            self.learned,
            self.twin,
            self.sources,
        ):
            down.addWidget(widget)
        down.addStretch(1)
        self.setWidget(inside)

    def fit(self, high_px: int) -> None:
        """Give the picture its share of a page so high."""
        high = round(high_px * PICTURE_SHARE)
        self.picture.setFixedHeight(min(max(high, LEAST_HIGH_PX), MOST_HIGH_PX))

    def say(self, shown: DryingShown, now_at: datetime, zone: tzinfo) -> None:
        """Say what is shown by the clock of now, and move the line of the present."""
        page, said = shown.page, headline(shown.page, now_at, zone)
        if said != self.verdict.text():
            self.verdict.setText(said)
            announce(self.verdict, said)
        self.tell_why(page.why)
        self.picture.show_now(now_at)
        self.picture.setAccessibleDescription(picture_words(page, now_at, zone))
        self.what_if.tell(change_sentence(shown, now_at, zone))
        self.twin.show_windows(window_rows(page, now_at, zone))

    def tell_air(self, air: ShopAir) -> None:
        """Say whose air it is."""
        self.rule.setText(air_words(air))
        self.rule.show()

    def tell_why(self, why: str) -> None:
        """Say why it takes so long, or nothing."""
        self.why.setText(why)
        self.why.setVisible(bool(why))

    def blank(self, said: str) -> None:
        """Show nothing but why there is nothing."""
        self.picture.show_plot(None)
        self.twin.show_windows(())
        self.tell_why("")
        self.sources.clear()
        self.learned.show_choice(None)
        self.verdict.setText(said)


def _words(parent: QWidget, name: str) -> QLabel:
    label = QLabel(parent)
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(
        Qt.TextInteractionFlag.TextSelectableByMouse
        | Qt.TextInteractionFlag.TextSelectableByKeyboard
    )
    return label
