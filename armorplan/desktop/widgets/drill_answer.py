"""One exercise after another: asked, answered, told of, asked why, kept in the practice of a person."""

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.practice_desk import Posed, PracticeDesk, Worth
from armorplan.desktop.practice_turn import PracticeTurn
from armorplan.desktop.practice_words import not_whole_words, why_drill
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.drill_answer_after import DrillAfter
from armorplan.desktop.widgets.drill_answer_foot import At
from armorplan.desktop.widgets.drill_answer_pieces import Pieces
from armorplan.desktop.widgets.drill_answer_view import DrillView
from armorplan.practice.drill import AnswerForm, WhyAsked


class DrillPane(QWidget):
    """Worked by ``pose``, ``answer``, ``hint``, ``again`` and ``onward``; buttons and keys are these.

    ``onward_wanted`` asks for another exercise, ``said`` carries what was said when a result was
    kept or something is lacking, ``led`` the page of the help that a link leads to.
    """

    onward_wanted = Signal()
    said = Signal(str)
    led = Signal(str)

    def __init__(self, bridge: Bridge, parent: QWidget, pieces: Pieces) -> None:
        super().__init__(parent)
        self.setObjectName("drill_pane")
        self._bridge = bridge
        self.desk = PracticeDesk(bridge, self)
        self.view = DrillView(pieces, self)
        self.at = At.NONE
        self.turn: PracticeTurn | None = None
        self._posed: Posed | None = None
        self._then: Callable[[], None] | None = None
        self.after = DrillAfter(self.view, self)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self.view)
        self._connect()
        self._go(At.NONE)

    def _connect(self) -> None:
        foot = self.view.foot
        foot.answered.connect(self.answer)
        foot.hinted.connect(self.hint)
        foot.played.connect(self.after.play)
        foot.neared.connect(self.after.turn_nearest)
        foot.retried.connect(self.again)
        foot.onward.connect(self.onward)
        self.view.told.led.connect(self.led)
        self.desk.judged.connect(self._take_worth)
        self.desk.questioned.connect(self._take_why)

    # --- the verbs ---------------------------------------------------------------------------

    def pose(self, posed: Posed, person: str, *, with_keys: bool = True) -> None:
        """Ask an exercise of a person; ``with_keys``: the keyboard goes to the answer."""
        self.settle()
        self._posed = posed
        self.after.forget()
        self.turn = PracticeTurn(
            practice=posed.practice,
            person=person,
            drill=posed.drill,
            begun_at=self._bridge.clock.now(),
            tell=self.said.emit,
        )
        self.view.show_posed(posed)
        self._go(At.ASKED, has_hint=bool(posed.drill.hint))
        if with_keys:
            self.view.begin()
        announce(self.view.head, posed.drill.question)

    def show_nothing(self, sentence: str, *, is_looking: bool = False) -> None:
        """Ask nothing, and say why; what was answered before is kept."""
        self.settle()
        self.turn = self._posed = None
        self.after.forget()
        self.view.show_nothing(sentence)
        self._go(At.LOOKING if is_looking else At.NONE)
        announce(self.view.head, sentence)

    def answer(self) -> None:
        """Have the answer judged as it stands in the form."""
        form = self.view.asked_form
        if form is None or self._posed is None or self.at not in (At.ASKED, At.AGAIN, At.WHY):
            return
        if not form.is_whole():
            drill = self._posed.drill
            lacks = not_whole_words(AnswerForm.ONE if self.at is At.WHY else drill.form)
            self.view.foot.say_lacking(lacks)
            self.tell(lacks)
        elif self.at is At.WHY:
            self._take_reason(form.answer()[0])
        else:
            self._go(At.JUDGING)
            self.desk.judge(self._posed, form.answer())

    def hint(self) -> None:
        """Show the reason before the answer."""
        if self.turn is not None and self.at is At.ASKED:
            self.turn.hinted = True
            self.view.show_hint(self.turn.drill.hint)
            self._go(At.ASKED, has_hint=False)
            self.view.begin()

    def again(self) -> None:
        """Go on from the answer given; what comes of it counts for nothing."""
        if self.at is At.TOLD and self.after.worth is not None:
            self.after.go_on_from()
            self.view.told.forget()
            self._go(At.AGAIN)
            self.view.begin()

    def onward(self) -> None:
        """Leave the second question, or the exercise for another one."""
        if self.at is At.WHY:
            self._end()
        elif self.at is not At.JUDGING:
            self.onward_wanted.emit()

    def tell(self, sentence: str) -> None:
        """Say what was kept, or what is lacking."""
        self.said.emit(sentence)

    def settle(self) -> None:
        """Keep what is answered by now: one goes on, or leaves; a second question is left at that."""
        if self.at is At.WHY:
            self._end(with_keys=self._has_keys())
        else:
            self._keep()

    def then(self, do: Callable[[], None]) -> None:
        """Do something once the answer that is being judged is kept: a first try is never lost."""
        self._then = do

    def finish(self) -> None:
        """Wait for the answer that is being judged, and keep it."""
        if self.at is At.JUDGING:
            self.desk.finish_judging()

    def _go_on(self) -> bool:
        """Do what waited for the judgement; tell whether anything did."""
        do, self._then = self._then, None
        if do is None:
            return False
        self._end(with_keys=self._has_keys())
        do()
        return True

    def _has_keys(self) -> bool:
        """Tell whether the keyboard is here: one who chooses above goes on choosing."""
        return self.isAncestorOf(self.window().focusWidget())

    def _keep(self) -> None:
        if self.turn is not None:
            self.turn.settle()

    def forget(self) -> None:
        """Drop what is under way."""
        self.desk.drop()
        self.view.picture.stop()

    # --- what comes of it --------------------------------------------------------------------

    def _take_worth(self, worth: Worth) -> None:
        turn = self.turn
        if turn is None or self._posed is None:
            return
        self.tell("")
        turn.take(worth.answer, worth.judged, self._bridge.clock.now())
        self.after.mark(turn, worth)
        if self._go_on():
            return
        if worth.judged.right and turn.may_teach:
            self.after.tell(is_open=True)
            self.desk.ask_why(self._posed, worth.judged)
        else:
            self._end()

    def refuse(self, why: str) -> None:
        """Say why an answer could not be judged, and go on from it."""
        if self.at is At.JUDGING and not self._go_on():
            turn = self.turn
            is_first = turn is not None and turn.first is None
            has_hint = turn is not None and bool(turn.drill.hint) and not turn.hinted
            self._go(At.ASKED if is_first else At.AGAIN, has_hint=has_hint)
        self.tell(why)

    def _take_why(self, asked: WhyAsked | None) -> None:
        turn = self.turn
        if turn is None or self._posed is None:
            return
        if asked is None or not turn.may_teach:
            self._end()
            return
        turn.why = asked
        self.after.tell(is_open=True)
        self.view.ask_why(why_drill(turn.drill, asked))
        self._go(At.WHY)
        self.view.begin()
        announce(self.view.head, asked.question)

    def _take_reason(self, reason: str) -> None:
        if self.turn is not None:
            self.turn.reason = reason
            self._end()

    def _end(self, *, with_keys: bool = True) -> None:
        """Tell all there is to tell, keep the first try, and offer what can be done now."""
        self._keep()
        self.view.end_why()
        self._go(At.TOLD)
        self.after.tell()
        self.after.offer(with_keys=with_keys)

    def _go(self, at: At, *, has_hint: bool = False) -> None:
        self.at = at
        self.view.foot.show_at(at, has_hint=has_hint)
