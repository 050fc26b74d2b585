"""The questions of a bringing, and taking what is suggested."""

from armorplan.app.bringing.answering import answered
from armorplan.app.bringing.asking import EACH, NONE, fits
from armorplan.app.bringing.model import Bringing, Question, QuestionKind
from armorplan.app.bringing.standing import standing
from armorplan.kernel.stopping import ShouldStop, never
from armorplan.workshop.shelf import Shelf


def questions(
    bringing: Bringing, shelf: Shelf, *, should_stop: ShouldStop = never
) -> tuple[Question, ...]:
    """Return all questions in order, answered or not; later ones build on what is suggested.

    An answer may change which questions come after it. Seconds for a large drawing.

    Raises:
        StoppedError: it is no longer wanted.
    """
    return standing(bringing, shelf, should_stop=should_stop).questions


def open_questions(
    bringing: Bringing, shelf: Shelf, *, should_stop: ShouldStop = never
) -> tuple[Question, ...]:
    """Return the questions that nothing was answered to yet."""
    found = questions(bringing, shelf, should_stop=should_stop)
    return tuple(question for question in found if question.answer is None)


def accepted(
    bringing: Bringing,
    shelf: Shelf,
    *,
    sure_only: bool = True,
    should_stop: ShouldStop = never,
) -> Bringing:
    """Return it with what is suggested taken as the answer to all that is open.

    Args:
        bringing: the drawing and its answers.
        shelf: what can be named.
        sure_only: take only what needs no thought.
        should_stop: asks for an end.
    """
    for question in open_questions(bringing, shelf, should_stop=should_stop):
        if question.sure or not sure_only:
            bringing = answered(bringing, question.id, question.suggested)
    return bringing


def only_sure(bringing: Bringing, shelf: Shelf) -> Bringing:
    """Return it with all rows left free that do more than fit but one other; the rest as suggested."""
    for question in open_questions(bringing, shelf):
        if question.kind is QuestionKind.ROWS and not question.sure:
            bringing = answered(bringing, question.id, EACH)
    for question in open_questions(bringing, shelf):
        if question.kind is QuestionKind.ROW:
            bringing = answered(bringing, question.id, NONE)
    return bringing


def unasked(bringing: Bringing, shelf: Shelf) -> tuple[str, ...]:
    """Return the answers that no question takes: what is asked about is not there, or not so."""
    asked = {question.id: question for question in questions(bringing, shelf)}
    return tuple(
        given.about
        for given in bringing.given
        if not given.about.startswith(("shape:", "part:", "row:"))
        and (given.about not in asked or not fits(asked[given.about], given.choice))
    )
