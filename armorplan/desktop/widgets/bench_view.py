"""The bench view: one step at a time over the whole window, read from where the maker stands."""

from collections.abc import Callable
from datetime import datetime

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QLabel, QWidget

from armorplan.app.bench_card import BenchCard
from armorplan.app.rows import BenchState
from armorplan.desktop.bench_desk import FRESH_S, BenchDesk
from armorplan.desktop.bench_layout import Band, BenchLayout, BenchTexts, lay_bench
from armorplan.desktop.bench_type import ScreenFacts, Sight
from armorplan.desktop.bench_verbs import (
    OWN_KEYS,
    Verb,
    key_name,
    pedal_of,
    read_pedals,
    shown_key,
    verb_of,
    verb_word,
)
from armorplan.desktop.bench_words import caution_text, facts_of, next_text, progress_text
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.settings import (
    BENCH_DIAGONAL_MM,
    BENCH_DISTANCE_CM,
    BENCH_PEDALS,
    BENCH_TEXT_PCT,
    CALM,
    Settings,
)
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.alarm import urgency
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.bench_band import BenchHead, CautionBand, CommitBand, Weight
from armorplan.desktop.widgets.bench_foot import BenchFoot
from armorplan.desktop.widgets.bench_picture import BenchPicture
from armorplan.desktop.widgets.bench_plates import Plates
from armorplan.desktop.widgets.bench_writing import FontMeasure, capital_share, letters
from armorplan.desktop.wording import clock_text

LEAF_KEY = "M"
"""Shows all there is to read of the step."""


class BenchView(QWidget):
    """Shows what the desk holds, and hands keys and presses on to it.

    ``left`` says that the maker goes back to the other views.
    """

    left = Signal()

    def __init__(
        self,
        bridge: Bridge,
        ticker: Ticker,
        settings: Settings,
        quiet: Callable[[], None],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setObjectName("bench_view")
        self.setAccessibleName(self.tr("Bench view"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAutoFillBackground(True)
        self._bridge, self._ticker, self._settings = bridge, ticker, settings
        self._said, self._said_until = "", 0.0
        self.desk = BenchDesk(bridge, self)
        self.head = BenchHead(self)
        self.title, self.facts = self._label("bench_title"), self._label("bench_facts")
        self.picture = BenchPicture(bridge, self)
        self.caution = CautionBand(self)
        self.commit = CommitBand(self)
        self.foot = BenchFoot(bridge, self)
        self.plates = Plates(self)
        self.layout_now: BenchLayout | None = None
        self.foot.clicked.connect(quiet)
        self.plates.pressed.connect(self.desk.act)
        self.desk.turned.connect(self.refresh)
        bridge.said.connect(self._hear)
        ticker.ticked.connect(self._tick)

    def _label(self, name: str) -> QLabel:
        label = QLabel(self)
        label.setObjectName(name)
        label.setWordWrap(True)
        label.setTextFormat(Qt.TextFormat.PlainText)
        label.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        return label

    # --- coming and going -------------------------------------------------------------------

    def come(self) -> None:
        """Come into sight with the step that is chosen, or where work begins."""
        self._said = ""
        self.desk.begin()
        self.setFocus()

    def go(self) -> None:
        """Go out of sight."""
        self.desk.end()

    # --- what is shown ----------------------------------------------------------------------

    def sight(self) -> Sight:
        """Return where the maker stands, and before which screen."""
        screen, settings = self.screen(), self._settings
        size, real = screen.geometry(), screen.physicalSize()
        facts = ScreenFacts(
            wide_px=size.width(),
            high_px=size.height(),
            wide_mm=real.width(),
            high_mm=real.height(),
            own_diagonal_mm=settings.value(BENCH_DIAGONAL_MM),
        )
        return Sight(
            distance_mm=10.0 * settings.value(BENCH_DISTANCE_CM),
            px_per_mm=facts.px_per_mm,
            pct=settings.value(BENCH_TEXT_PCT),
        )

    def refresh(self) -> None:
        """Show the step in hand anew, in letters that fit the distance."""
        if not self.desk.is_on:
            return
        card, now = self.desk.card, self._bridge.clock.now()
        facts, kept = facts_of(card) if card else ((), 0)
        title = card.title if card else self.desk.rest_text()
        caution = caution_text(card, LEAF_KEY) if card else ""
        ringing = bool(self._ticker.ringing)
        texts = BenchTexts(
            title=title,
            facts=facts,
            kept=kept,
            caution=caution,
            commit="",
            foot_lines=1 + ringing,
            foot_is_target=ringing,
        )
        wanted = self.sight().body_px(capital_share(self.font()))
        laid = lay_bench(self.width(), self.height(), wanted, texts, FontMeasure(self.font()))
        self._place(laid)
        px = laid.body_px
        self.title.setText(title)
        self.facts.setText("\n".join(laid.facts))
        self.caution.show_caution(caution, px)
        self.commit.show_commit("", Weight.NOTHING, px)
        self._show_head(card, px)
        self.foot.show_next(next_text(card, now, self._bridge.zone) if card else "", px)
        self.picture.show_step(card.step if card else "", px)
        self._name_plates(card, px)
        self._tick()

    def _place(self, laid: BenchLayout) -> None:
        self.layout_now = laid
        for label, px, bold in (
            (self.title, laid.title_px, True),
            (self.facts, laid.body_px, False),
        ):
            label.setFont(letters(self.font(), px, bold=bold))
        for band, widget in (
            (Band.HEAD, self.head),
            (Band.TITLE, self.title),
            (Band.FACTS, self.facts),
            (Band.PICTURE, self.picture),
            (Band.CAUTION, self.caution),
            (Band.COMMIT, self.commit),
            (Band.FOOT, self.foot),
            (Band.VERBS, self.plates),
        ):
            widget.setGeometry(*laid.boxes[band])

    def _show_head(self, card: BenchCard | None, px: int) -> None:
        self.head.show_head(
            px=px,
            state=card.state if card else None,
            where=card.where if card else self._bridge.session.title,
            progress=progress_text(card) if card else "",
            share=card.done_count / card.all_count if card and card.all_count else 0.0,
        )

    def _name_plates(self, card: BenchCard | None, px: int) -> None:
        pedals = read_pedals(self._settings.value(BENCH_PEDALS))
        for verb, plate in self.plates.by_verb.items():
            key = pedal_of(pedals, verb) or OWN_KEYS[verb][0]
            plate.show_key(shown_key(key), px)
        begin = self.plates.by_verb[Verb.BEGIN]
        running = card is not None and card.state is BenchState.RUNNING
        begin.show_word(self.tr("Pause") if running else verb_word(Verb.BEGIN))
        begin.show_going(is_going=running)
        back = self.plates.by_verb[Verb.TAKE_BACK]
        back.setEnabled(bool(self._bridge.session.can_undo()))

    def _tick(self) -> None:
        """Show what time alone changes."""
        if not self.desk.is_on:
            return
        now = self._bridge.clock.now()
        self.head.show_clock(clock_text(now, now, self._bridge.zone))
        if self._said and self._bridge.clock.boot_seconds() >= self._said_until:
            self._said = ""
        self.head.say(self._said)
        rings = sorted(self._ticker.ringing, key=urgency)
        is_calm = self._settings.value(CALM)
        is_bright = is_calm or int(now.timestamp()) % 2 == 0
        self.foot.show_timers(self._ticker.rows, rings[0] if rings else None, is_bright=is_bright)
        self._show_fresh(now, is_calm=is_calm)

    def _show_fresh(self, _now: datetime, *, is_calm: bool) -> None:
        fresh = self.desk.fresh_s / FRESH_S
        back = self.plates.by_verb[Verb.TAKE_BACK]
        back.show_fresh(float(fresh > 0) if is_calm else fresh)

    def _hear(self, sentence: str) -> None:
        if self.desk.is_on and sentence:
            self._said = sentence
            self._said_until = self._bridge.clock.boot_seconds() + FRESH_S
            announce(self, sentence)
            self.head.say(sentence)

    # --- keys -------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.isAutoRepeat():
            event.accept()
            return
        name = key_name(event.key())
        verb = verb_of(name, read_pedals(self._settings.value(BENCH_PEDALS)))
        if verb is not None:
            self.desk.act(verb)
        elif name == "Left":
            self.desk.other(-1)
        elif name == "Esc":
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.refresh()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.PaletteChange):
            self.refresh()
