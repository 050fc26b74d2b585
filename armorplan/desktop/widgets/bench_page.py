"""One page of the bench view: its bands, laid out and written as large as the distance asks for."""

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QWidget

from armorplan.desktop.bench_content import BenchContent
from armorplan.desktop.bench_layout import Band, BenchLayout, BenchTexts, Box, lay_bench
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.bench_band import BenchHead, CautionBand, CommitBand
from armorplan.desktop.widgets.bench_foot import BenchFoot
from armorplan.desktop.widgets.bench_picture import BenchPicture
from armorplan.desktop.widgets.bench_plates import Plates
from armorplan.desktop.widgets.bench_row import RowStrip
from armorplan.desktop.widgets.bench_writing import FontMeasure, letters

ROW_LINES = 1.9
"""How high the strip of the row is, in letter sizes."""


class BenchPage(QWidget):
    """Shows a ``BenchContent``. ``resized`` asks for it anew."""

    resized = Signal()

    def __init__(self, bridge: Bridge, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("bench_page")
        self.head = BenchHead(self)
        self.title, self.facts = self._label("bench_title"), self._label("bench_facts")
        self.row = RowStrip(self)
        self.picture = BenchPicture(bridge, self)
        self.caution = CautionBand(self)
        self.commit = CommitBand(self)
        self.foot = BenchFoot(bridge, self)
        self.plates = Plates(self)
        self.laid: BenchLayout | None = None
        self._measure = FontMeasure(self.font())

    def _label(self, name: str) -> QLabel:
        label = QLabel(self)
        label.setObjectName(name)
        label.setWordWrap(True)
        label.setTextFormat(Qt.TextFormat.PlainText)
        label.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        return label

    def laid_out(
        self, content: BenchContent, body_px: int, *, rings: bool, notice: str = ""
    ) -> BenchLayout:
        """Return where all of it would lie in letters of ``body_px``, or the largest that fit."""
        texts = BenchTexts(
            title=content.title,
            facts=content.facts,
            kept=content.kept,
            caution=content.caution,
            commit=content.commit.text,
            notice=notice,
            foot_lines=1 + rings,
            foot_is_target=rings,
            has_plan=bool(content.plan),
            is_whole=content.is_whole,
            is_steady=content.is_steady,
        )
        return lay_bench(self.width(), self.height(), body_px, texts, self._measure)

    def show_content(
        self, content: BenchContent, body_px: int, *, rings: bool, notice: str = ""
    ) -> None:
        """Show what there is to be seen."""
        self.laid = laid = self.laid_out(content, body_px, rings=rings, notice=notice)
        px = laid.body_px
        self._place(laid)
        self.title.setText(content.title)
        self.facts.setText("\n".join(laid.facts))
        self.caution.show_caution(content.caution, px)
        self.commit.show_commit(content.commit.text, content.commit.weight, px)
        self.head.show_head(
            px=px,
            state=content.state,
            where=content.where,
            progress=content.progress,
            share=content.share,
        )
        self.row.show_row(content.row, content.here, px)
        self.foot.show_next(content.coming, content.plan, px)
        self.picture.setVisible(not content.is_whole)
        if not content.is_whole:
            self.picture.show_lit(content.lit, body_px)
            self.picture.number(content.numbers)
        self.plates.show_words(content.words, is_going=content.is_going)

    def _place(self, laid: BenchLayout) -> None:
        px = laid.body_px
        self.title.setFont(letters(self.font(), laid.title_px, bold=True))
        self.facts.setFont(letters(self.font(), px))
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
        self.row.setGeometry(*self._row_box(laid))

    def _row_box(self, laid: BenchLayout) -> Box:
        """Return what the facts leave of their place, for the strip of the row."""
        box, measure = laid.boxes[Band.FACTS], self._measure
        used = sum(measure(fact, box.wide, laid.body_px) for fact in laid.facts)
        used += round(0.6 * laid.body_px)
        high = max(0, min(box.high - used, round(ROW_LINES * laid.body_px)))
        return Box(box.x, box.y + used, box.wide - laid.body_px, high)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._measure = FontMeasure(self.font())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit()
