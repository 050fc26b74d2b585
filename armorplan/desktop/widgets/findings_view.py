"""What was found in the pattern: what is wrong with its numbers, and the remedy."""

from dataclasses import replace

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QFont, QResizeEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.shapes_words import standing_sign
from armorplan.kernel.findings import Finding, Severity, gravest_first

BESIDE_PX = 44
"""Margins and scroll bar of the list beside its texts."""
ABOVE_PX = 10
"""Margins of the list above and below its texts."""
HIGH_LINES = 7
"""Lines of findings in sight at once; the rest scrolls."""
NOTE_LINES = 4
"""The same where nothing has to be looked at or mended: notes leave the room to the build."""


class FindingsView(QWidget):
    """Lists the findings of the build, after those of a folder that could not be opened.

    Choosing a finding lights the parts, joints and steps it speaks of, and its marks on them. Hidden where all is well.
    """

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("findings")
        self._bridge = bridge
        self._head = QLabel(self)
        self._head.setObjectName("findings_head")
        heavy = QFont()
        heavy.setWeight(QFont.Weight.DemiBold)
        self._head.setFont(heavy)
        self.list = QListWidget(self)
        self.list.setObjectName("findings_list")
        self.list.setAccessibleName(self.tr("Findings"))
        self.list.setWordWrap(True)
        self.list.setAlternatingRowColors(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.currentItemChanged.connect(self._choose)
        self.fold = QToolButton(self)
        self.fold.setObjectName("findings_fold")
        self.fold.setAccessibleName(self.tr("Show the findings"))
        self.fold.setToolTip(self.fold.accessibleName())
        self.fold.setAutoRaise(True)
        self.fold.setCheckable(True)
        self.fold.toggled.connect(self._unfold)
        self.fold.setChecked(True)
        across = QHBoxLayout()
        across.setSpacing(4)
        across.addWidget(self.fold)
        across.addWidget(self._head, 1)
        down = QVBoxLayout(self)
        down.setContentsMargins(8, 2, 8, 4)
        down.setSpacing(2)
        down.addLayout(across)
        down.addWidget(self.list)
        self._is_tight = False
        self._shown: tuple[Finding, ...] = ()
        self._refused: tuple[str, tuple[Finding, ...]] | None = None
        bridge.opened.connect(self.refresh)
        bridge.aired.connect(self.refresh)
        bridge.changed.connect(self._refresh_if_new)
        self.refresh()

    def make_room(self, *, is_tight: bool) -> None:
        """Fold to the heading where there is little room; it can be unfolded there, too."""
        if is_tight != self._is_tight:
            self._is_tight = is_tight
            self.fold.setChecked(not is_tight)

    def _unfold(self, wanted: bool) -> None:
        self.list.setVisible(wanted)
        arrow = Qt.ArrowType.DownArrow if wanted else Qt.ArrowType.RightArrow
        self.fold.setArrowType(arrow)

    def go(self) -> None:
        """Unfold the findings and give them the keyboard."""
        self.fold.setChecked(True)
        self.list.setFocus()

    def refresh(self) -> None:
        """Show the findings of the build that is open."""
        self._refused = None
        self.show_findings(self._bridge.session.findings)

    def _refresh_if_new(self) -> None:
        """Show what is found by now: a change of the shop, or a new problem, may tell more or less."""
        if self._bridge.session.findings == self._shown:
            return
        if self._refused is None:
            self.refresh()
        else:
            self.show_refused(*self._refused)

    def show_findings(self, findings: tuple[Finding, ...]) -> None:
        """Show these findings, errors first."""
        self._shown = findings
        self._head.setText(self._counted(findings))
        self.list.clear()
        for finding in gravest_first(findings):
            item = QListWidgetItem(self._worded(finding), self.list)
            item.setData(Qt.ItemDataRole.UserRole, finding)
        self.setVisible(bool(findings))
        self._fit()

    def show_refused(self, name: str, findings: tuple[Finding, ...]) -> None:
        """Show why a folder was not opened, each line with its name, above the build's findings.

        Its lines light nothing: what they speak of is not in the build that is shown.
        """
        self._refused = (name, findings)
        own = self._bridge.session.findings
        self.show_findings(own)
        for row, finding in enumerate(gravest_first(findings)):
            self.list.insertItem(row, f"{name} – {self._worded(finding)}")
        refused = self.tr("Not opened: {0}").format(name)
        self._head.setText(f"{refused}.  {self._counted(own)}" if own else refused)
        self.setVisible(True)
        self._fit()

    def _counted(self, findings: tuple[Finding, ...]) -> str:
        words = {
            Severity.ERROR: self.tr("to mend before building: {0}"),
            Severity.WARNING: self.tr("to look at: {0}"),
            Severity.NOTE: self.tr("to know: {0}"),
        }
        counts = {s: sum(1 for f in findings if f.severity is s) for s in Severity}
        told = [words[s].format(counts[s]) for s in Severity if counts[s]]
        return self.tr("Found – {0}").format(", ".join(told))

    def _worded(self, finding: Finding) -> str:
        sign = standing_sign(finding.severity.value)
        place = f"  ({finding.place})" if finding.place else ""
        return f"{sign} {finding.severity.value}: {finding.text} {finding.remedy}{place}"

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """Be as high as the findings need at this width, up to a few lines."""
        most_px = self._lines() * self.fontMetrics().lineSpacing()
        page = QRect(0, 0, self.contentsRect().width() - BESIDE_PX, most_px)
        rows = range(min(HIGH_LINES, self.list.count()))
        texts = [self.list.item(row).text() for row in rows]
        wrap = Qt.TextFlag.TextWordWrap
        need_px = sum(self.fontMetrics().boundingRect(page, wrap, text).height() for text in texts)
        self.list.setFixedHeight(min(most_px, need_px) + ABOVE_PX)

    def _lines(self) -> int:
        found = (
            self.list.item(row).data(Qt.ItemDataRole.UserRole) for row in range(self.list.count())
        )
        only_notes = all(f is not None and f.severity is Severity.NOTE for f in found)
        return NOTE_LINES if only_notes else HIGH_LINES

    def chosen(self) -> Finding | None:
        """Return the finding that has the keyboard, if one has."""
        item = self.list.currentItem() if self.list.hasFocus() else None
        found: Finding | None = item.data(Qt.ItemDataRole.UserRole) if item else None
        return found

    def _choose(self, item: QListWidgetItem | None) -> None:
        if item is None:
            return
        finding: Finding | None = item.data(Qt.ItemDataRole.UserRole)
        if finding is None:
            return
        session = self._bridge.session
        told = tuple(row.id for row in session.shapes() if finding in row.findings)
        self._bridge.select(replace(session.choose_spoken_of(finding.about), measures=told))
