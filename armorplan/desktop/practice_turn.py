"""One exercise with one person: first try, hint, second question, and what is kept of it."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime

from armorplan.app.practice_protocol import Practising
from armorplan.practice.drill import Answer, Drill, Judged, WhyAsked
from armorplan.practice.grades import Grade, grade_of


@dataclass(slots=True, kw_only=True)
class PracticeTurn:
    """How an exercise goes; only its first try is kept, and that once.

    Attributes:
        practice: where it was set, and where it is kept, whatever is shown by then.
        tell: hears what was said when it was kept.
        hinted: the reason was asked for before the first answer.
        first: what the first try was worth, and ``answer`` what it was.
        why: the second question, once it is asked; ``reason``: the reason chosen.
    """

    practice: Practising
    person: str
    drill: Drill
    begun_at: datetime
    tell: Callable[[str], None]
    hinted: bool = False
    first: Judged | None = None
    answer: Answer = ()
    why: WhyAsked | None = None
    reason: str = ""
    seconds: float = 0.0
    _is_kept: bool = field(default=False, init=False)

    @property
    def grade(self) -> Grade | None:
        """How it was known as it stands now; ``None`` before the first try."""
        if self.first is None:
            return None
        return grade_of(right=self.first.right, hint=self.hinted, why_right=self.why_right)

    @property
    def why_right(self) -> bool:
        """Tell whether the reason was chosen rightly."""
        return self.why is not None and self.reason == self.why.right

    @property
    def may_teach(self) -> bool:
        """Tell whether the second question is still worth asking."""
        is_known = self.first is not None and self.first.right and not self.hinted
        return is_known and not self._is_kept

    def take(self, answer: Answer, judged: Judged, at: datetime) -> bool:
        """Take what an answer is worth; tell whether it was the first try."""
        if self.first is not None:
            return False
        self.first, self.answer = judged, answer
        self.seconds = max(0.0, (at - self.begun_at).total_seconds())
        return True

    def settle(self) -> None:
        """Keep the first try, unless there was none or it is kept already."""
        grade = self.grade
        if self._is_kept or self.first is None or grade is None:
            return
        self._is_kept = True
        if not self.person:
            return
        said = self.practice.keep(
            self.person,
            self.drill,
            self.answer,
            self.first,
            grade,
            self.seconds,
            hint=self.hinted,
        )
        self.tell(said)
