"""Questions that settle many things at once, and may be split: then each is asked by itself."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from armorplan.app.bringing.asking import EACH, NOT_ALL, Asking
from armorplan.app.bringing.model import Choice, Question
from armorplan.geometry.matching.model import RowMatch


@dataclass(frozen=True, slots=True, kw_only=True)
class Single:
    """One of the things a question settles: its key, and how it is asked about by itself."""

    key: str
    text: str
    shapes: tuple[str, ...]
    matches: tuple[RowMatch, ...] = ()


def asked_of_all(asking: Asking, question: Question, singles: Sequence[Single]) -> dict[str, str]:
    """Ask of all at once, or of each where a person says so; return what is taken for each."""
    if len(singles) < 2:  # noqa: PLR2004 - one thing cannot be split
        return dict.fromkeys((each.key for each in singles), asking.put(question))
    split = Choice(key=EACH, words=NOT_ALL)
    taken = asking.put(replace(question, choices=(*question.choices, split)))
    if taken != EACH:
        return dict.fromkeys((each.key for each in singles), taken)
    return {each.key: asking.put(_of_one(question, each)) for each in singles}


def _of_one(question: Question, single: Single) -> Question:
    return replace(
        question,
        id=f"{question.id}:{single.key}",
        text=single.text,
        shapes=single.shapes,
        matches=single.matches,
        settles=1,
        sure=False,
    )
