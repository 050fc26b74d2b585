"""Which question about a drawing comes next, from view to view."""

from armorplan.app.bringing.model import Question


class Turns:
    """The questions in their order, and the one in hand."""

    def __init__(self) -> None:
        self.questions: tuple[Question, ...] = ()
        self.at = 0
        self._answered_at: int | None = None
        """The first question that was answered since these were shown."""

    @property
    def question(self) -> Question | None:
        """The question in hand."""
        return self.questions[self.at] if self.at < len(self.questions) else None

    @property
    def is_done(self) -> bool:
        """Whether there are questions, and all of them are answered."""
        return bool(self.questions) and all(one.answer is not None for one in self.questions)

    def take(self, questions: tuple[Question, ...]) -> None:
        """Take new questions.

        What an answer made to be asked comes next, before what was in hand; else that stays in
        hand as long as it is asked and open.
        """
        former, known = self.question, {one.id for one in self.questions}
        self.questions = questions
        made = self._made(known)
        here = self.place_of(former.id) if former else None
        if here is None or questions[here].answer is not None:
            here = self.next_open(here if here is not None else self.at - 1)
        self.at = here if made is None else min(here, made)

    def _made(self, known: set[str]) -> int | None:
        """Return the first open question that was not there before what was answered since."""
        after, self._answered_at = self._answered_at, None
        if after is None:
            return None
        for at, one in enumerate(self.questions):
            if at > after and one.answer is None and one.id not in known:
                return at
        return None

    def place_of(self, question_id: str) -> int | None:
        """Return where a question stands; ``None`` where it is not asked."""
        return next((at for at, one in enumerate(self.questions) if one.id == question_id), None)

    def next_open(self, after: int) -> int:
        """Return the next open question, else the first open one, else the last of all."""
        open_ones = [at for at, one in enumerate(self.questions) if one.answer is None]
        later = [at for at in open_ones if at > after]
        return next(iter(later or open_ones), max(len(self.questions) - 1, 0))

    def answer(self) -> int:
        """The one in hand is answered: return which comes next until it is known what follows."""
        first = self.at if self._answered_at is None else self._answered_at
        self._answered_at = min(self.at, first)
        return self.next_open(self.at)

    @property
    def sure(self) -> int:
        """How many are open and need no look."""
        return sum(1 for one in self.questions if one.sure and one.answer is None)
