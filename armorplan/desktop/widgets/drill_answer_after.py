"""What is shown of an answer once it is judged: told, played on the picture, beside a right one."""

from PySide6.QtCore import QObject

from armorplan.desktop.practice_desk import Worth
from armorplan.desktop.practice_html import Told
from armorplan.desktop.practice_turn import PracticeTurn
from armorplan.desktop.widgets.drill_answer_view import DrillView
from armorplan.practice.drill import AnswerForm


class DrillAfter(QObject):
    """Holds the answer that was judged last, and shows it in the view of its exercise."""

    def __init__(self, view: DrillView, parent: QObject) -> None:
        super().__init__(parent)
        self._view = view
        self._turn: PracticeTurn | None = None
        self.worth: Worth | None = None
        self._is_nearest_shown = False

    def forget(self) -> None:
        """Hold no answer: another exercise is asked."""
        self._turn = self.worth = None
        self._is_nearest_shown = False

    def mark(self, turn: PracticeTurn, worth: Worth) -> None:
        """Take an answer that was judged, and mark it in the form."""
        self._turn, self.worth = turn, worth
        self._is_nearest_shown = False
        if self._view.form is not None:
            self._view.form.show_judged(turn.drill, worth.judged)

    def tell(self, *, is_open: bool = False) -> None:
        """Tell what it is worth; ``is_open``: without what the second question asks for."""
        turn, worth = self._turn, self.worth
        if turn is None or worth is None:
            return
        is_again = worth.judged is not turn.first
        self._view.show_told(
            Told(
                drill=turn.drill,
                answer=worth.answer,
                judged=worth.judged,
                grade=None if is_again or is_open else turn.grade,
                is_again=is_again,
                with_reasons=not is_open,
                why=None if is_again else turn.why,
                reason="" if is_again else turn.reason,
                is_nearest_shown=self._is_nearest_shown,
            )
        )

    def offer(self, *, with_keys: bool = True) -> None:
        """Offer what can be done with it; ``with_keys``: the keyboard goes to what is likely next."""
        if self._turn is None or self.worth is None:
            return
        judged, form = self.worth.judged, self._turn.drill.form
        self._view.foot.offer_told(
            form,
            right=judged.right,
            has_play=bool(judged.play),
            # The form of an order shows the nearest right one itself; of choices all are marked.
            has_near=bool(judged.nearest) and form is AnswerForm.TIMES,
        )
        if with_keys:
            self._view.foot.begin(right=judged.right)

    def play(self) -> None:
        """Show on the picture how it goes, stepped by keys."""
        if self.worth is not None and self.worth.judged.play:
            self._view.play(self.worth)

    def turn_nearest(self) -> None:
        """Show a right answer in place of the one given, or that one again."""
        turn, worth, form = self._turn, self.worth, self._view.form
        if turn is None or worth is None or form is None:
            return
        self._is_nearest_shown = not self._is_nearest_shown
        if self._is_nearest_shown:
            form.show_answer(worth.judged.nearest, editable=False)
        else:
            form.show_answer(worth.answer, editable=False)
            form.show_judged(turn.drill, worth.judged)
        self._view.foot.say_nearest(turn.drill.form, is_shown=self._is_nearest_shown)
        self.tell()

    def go_on_from(self) -> None:
        """Let the answer be changed, from where it stands."""
        self._is_nearest_shown = False
        self._view.picture.stop()
        if self.worth is not None and self._view.form is not None:
            self._view.form.show_answer(self.worth.answer, editable=True)
