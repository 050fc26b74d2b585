"""Signed off: what somebody does alone, with the maker beside, or not yet; plans go by it at once."""

from PySide6.QtCore import QItemSelectionModel, QModelIndex, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QTableView, QVBoxLayout, QWidget

from armorplan.app.practice_protocol import Practising, SkillRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Runner
from armorplan.desktop.practice_rows import skill_headings, skill_rows, skill_told
from armorplan.desktop.twin_model import TwinModel
from armorplan.desktop.widgets.drill_progress import EnterTable, dressed
from armorplan.desktop.widgets.drill_skills_form import SkillForm
from armorplan.desktop.widgets.folding import Folding

LEAST_PRACTISED_PX = 220
FOLDED = (2,)


class SkillsPane(QWidget):
    """Shows one person's kinds of step; ``said`` carries what came of a sign-off."""

    said = Signal(str)

    def __init__(self, bridge: Bridge, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("practice_skills")
        self._bridge = bridge
        self._person = self._name = ""
        self._rows: tuple[SkillRow, ...] = ()
        self._reader = Runner(self)
        self._reader.answered.connect(self._show)
        self._reader.failed.connect(lambda error: self.said.emit(str(error)))
        self.head = QLabel(self)
        self.rows = TwinModel(skill_headings(), self)
        self.table = EnterTable(self)
        self.told = QLabel(self)
        self.form = SkillForm(self)
        self.plain = QLabel(self._plain_words(), self)
        dressed(self.table, self.rows, "practice_kinds", self.tr("Kinds of step"))
        self._folding = Folding(self.table, wide=3, least_px=LEAST_PRACTISED_PX, folded=FOLDED)
        self._lay_out()
        self.table.selectionModel().currentRowChanged.connect(self._tell)
        self.table.taken.connect(self.form.begin)
        self.table.doubleClicked.connect(self.form.begin)
        self.form.signed.connect(self._sign)
        self.form.taken_back.connect(self._take_back)

    def _lay_out(self) -> None:
        for label, name in (
            (self.head, "practice_skills_head"),
            (self.told, "practice_skill_told"),
            (self.plain, "practice_plain"),
        ):
            label.setObjectName(name)
            label.setWordWrap(True)
        down = QVBoxLayout(self)
        for widget in (self.head, self.table, self.told, self.form, self.plain):
            down.addWidget(widget, 1 if isinstance(widget, QTableView) else 0)

    def _plain_words(self) -> str:
        return self.tr(
            "A sign-off only steers this plan: to whom it gives a step, and who has to be there as "
            "well. It is no certificate of safety. Labels, local codes and licensed practice rule."
        )

    @property
    def _practice(self) -> Practising:
        return self._bridge.session.practice

    def show_person(self, person: str, name: str) -> None:
        """Show what a person may do, as it stands now, with what practice says of it."""
        practice = self._practice
        self._reader.ask(
            lambda _report, _stop: (person, name, practice.skills(person) if person else ())
        )

    @property
    def is_busy(self) -> bool:
        """Tell whether it is still being read."""
        return self._reader.is_busy

    def forget(self) -> None:
        """Want nothing read any more."""
        self._reader.drop()

    def close_jobs(self) -> None:
        """Wait for what is still under way."""
        self._reader.close()

    def _show(self, read: tuple[str, str, tuple[SkillRow, ...]]) -> None:
        person, self._name, self._rows = read
        self._person = person
        # Two lines always: the rows above stay where they are, whatever is said of them.
        self.told.setMinimumHeight(2 * self.told.fontMetrics().lineSpacing())
        at = self.table.currentIndex()
        kept = self.rows.key_at(at) if at.isValid() else ""
        self.rows.show(skill_rows(self._rows, self._bridge.zone))
        self._folding.fit()
        wanted = self.rows.index_of(kept)
        wanted = wanted if wanted.isValid() else self.rows.index(0, 0)
        flags = QItemSelectionModel.SelectionFlag
        self.table.selectionModel().setCurrentIndex(wanted, flags.ClearAndSelect | flags.Rows)
        self.head.setText(self._head_words())
        self.form.offer([one.name for one in self._practice.people()], is_known=bool(self._rows))
        self.form.name_back(self._practice.can_take_back(person) if person else "")
        self._tell(wanted)

    def _head_words(self) -> str:
        if self._rows:
            return self.tr("What {0} does in this shop, and in whose company.").format(self._name)
        if not self._name:
            return self.tr("Say above who it is about.")
        return self.tr(
            "{0} is not among the people of this shop, so that no plan gives them a step. Add them "
            "to the shop's file; then their steps can be signed off here."
        ).format(self._name)

    def _chosen(self) -> SkillRow | None:
        at = self.table.currentIndex()
        key = self.rows.key_at(at) if at.isValid() else ""
        return next((row for row in self._rows if row.kind == key), None)

    def _tell(self, _now: QModelIndex) -> None:
        row = self._chosen()
        self.told.setText(skill_told(row) if row else "")
        self.form.show_row(row)

    def _sign(self) -> None:
        row = self._chosen()
        if row is None:
            return
        if not self.form.by:
            self._say(self.tr("Say first who signs it off."))
            self.form.who.setFocus()
            return
        how, note = self.form.how, self.form.note.text().strip()
        self._told_by(self._practice.sign_off(row.person, row.kind, how, self.form.by, note))

    def _take_back(self) -> None:
        if self._person:
            self._told_by(self._practice.take_back_skill(self._person))

    def _told_by(self, sentence: str) -> None:
        """Say what came of it, show all as it stands now, and give the keyboard to the list."""
        self._bridge.tell(sentence)
        self._say(sentence)
        self.show_person(self._person, self._name)
        self.table.setFocus()

    def _say(self, sentence: str) -> None:
        self.said.emit(sentence)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._folding.fit()
