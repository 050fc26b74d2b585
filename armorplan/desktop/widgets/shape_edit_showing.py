"""Shows each state of the draft on the drawing table, and what is chosen of it beside."""

from collections.abc import Mapping
from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from armorplan.app.draft import Refused
from armorplan.desktop.shape_edit_choice import Choice
from armorplan.desktop.shape_edit_desk import Read, TableDesk
from armorplan.desktop.shape_edit_over import marks_of, moved_by
from armorplan.desktop.shape_edit_scene import TableScene
from armorplan.desktop.shape_edit_words import spoken
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.shape_edit_canvas import TableCanvas
from armorplan.desktop.widgets.shape_edit_findings import TableFindings
from armorplan.desktop.widgets.shape_edit_side import TableSide
from armorplan.kernel.findings import Finding
from armorplan.pattern.parts import Point


class _Wanted(NamedTuple):
    """What is chosen once something else is shown than ``before``; no ids: what is new then."""

    about: tuple[str, ...]
    before: tuple[tuple[str, str], ...] | None


class TableShowing(QObject):
    """Keeps drawing, fields and findings at one state and one choice.

    ``said`` carries a sentence, ``shown`` says that another state is shown, ``chosen`` that
    something else may be chosen now.
    """

    said = Signal(str)
    shown = Signal()
    chosen = Signal()

    def __init__(
        self,
        desk: TableDesk,
        canvas: TableCanvas,
        *,
        side: TableSide,
        findings: TableFindings,
        parent: QObject,
    ) -> None:
        super().__init__(parent)
        self._desk, self._canvas = desk, canvas
        self._side, self._findings = side, findings
        self._wanted: _Wanted | None = None
        desk.shown.connect(self._show)
        desk.moving.connect(self._show_moving)
        desk.failed.connect(self._tell_failed)
        desk.drafts.refused.connect(self._tell_refused)
        canvas.chose.connect(self._take_choice)
        canvas.hands.walked.connect(self._speak)
        findings.pointed.connect(self._point)

    def want(self, about: tuple[str, ...]) -> None:
        """Choose what has these ids once an edit is made; of none, what is new then."""
        self._wanted = _Wanted(about, self._desk.drafts.draft.texts)

    def want_now(self, about: tuple[str, ...]) -> None:
        """Choose what has these ids as soon as the draft is shown, as it stands."""
        self._wanted = _Wanted(about, None)

    def _show(self, found: Read) -> None:
        if found.scene is None:
            self.said.emit(self.tr("It cannot be drawn until what is found below is mended."))
        else:
            former = self._canvas.places()
            self._canvas.show_scene(found.scene)
            self._choose_wanted(found, found.scene, former)
            self._side.show_choice(found.draft, found.scene, self._canvas.choice)
            self._canvas.show_marks(marks_of(found.scene, found.findings))
        self._findings.show_findings(found.findings, is_checking=found.draft.is_hasty)
        if found.draft.told:
            self.said.emit(" ".join(found.draft.told))
        self.chosen.emit()
        self.shown.emit()

    def _choose_wanted(self, found: Read, scene: TableScene, former: Mapping[str, object]) -> None:
        """Choose what was wanted; the state before its edit may be shown once more till then."""
        wanted = self._wanted
        if wanted is None or found.draft.texts == wanted.before:
            return
        self._wanted = None
        new = tuple(key for key in scene.spots if key not in former)
        choice = Choice(scene.keys_about(wanted.about) if wanted.about else new)
        if choice.keys:
            self._canvas.choose(choice)

    def _show_moving(self, held: tuple[tuple[str, ...], Point]) -> None:
        if self._desk.scene is not None:
            self._canvas.show_moved(moved_by(self._desk.scene, *held))

    def _take_choice(self, choice: Choice) -> None:
        self.said.emit("")
        self._desk.commit()
        if self._desk.scene is not None:
            self._side.form.commit()
            self._side.show_choice(self._desk.drafts.draft, self._desk.scene, choice)
        self.chosen.emit()

    def _point(self, finding: Finding) -> None:
        """Choose what a finding speaks of."""
        if self._desk.scene is not None:
            choice = Choice(self._desk.scene.keys_about(finding.about))
            self._canvas.choose(choice)
            self._take_choice(choice)

    def _speak(self, key: str) -> None:
        """Say what has the ring, where a screen reader listens."""
        if self._desk.scene is not None:
            words = spoken(self._desk.scene, key)
            self._canvas.setAccessibleDescription(words)
            announce(self._canvas, words)

    def _tell_failed(self, error: object) -> None:
        self.said.emit(self.tr("The change is made, but it cannot be shown: {0}").format(error))

    def _tell_refused(self, about: object, refused: Refused) -> None:
        """Tell why an edit was not taken; what was shown as if it were goes back."""
        self._wanted = None
        if self._desk.scene is not None:
            self._canvas.show_moved({})
            self._side.show_choice(self._desk.drafts.draft, self._desk.scene, self._canvas.choice)
        if not (isinstance(about, tuple) and self._side.form.show_refusal(about, refused.words)):
            self.said.emit(refused.words)
