"""What passed of a timer while nobody was there, as one message with what it means now."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime

from armorplan.app.bells import Bell, BellKind


def missed_of(passed: Sequence[Bell], clock_words: Callable[[datetime], str]) -> Bell | None:
    """Return the one bell to tell of those that passed, in their order; ``None`` of none.

    Of a window that opened and closed only that it has closed; of a watch all turns at once.
    """
    if not passed:
        return None
    turns = [bell for bell in passed if bell.kind is BellKind.WATCH]
    if turns:
        return _turns_missed(turns, passed, clock_words)
    own = [bell for bell in passed if not bell.instead_of]
    return (own or passed)[-1]


def _turns_missed(
    turns: Sequence[Bell], passed: Sequence[Bell], clock_words: Callable[[datetime], str]
) -> Bell:
    first, last = clock_words(turns[0].at), clock_words(turns[-1].at)
    which = f"The turn of {first} was missed"
    if len(turns) > 1:
        which = f"{len(turns)} turns were missed, from {first} to {last}"
    over = next((bell.meaning for bell in passed if bell.kind is BellKind.DUE), "")
    text = f"{which}: it may have streaked. Look at it now. {over}".strip()
    return replace(turns[0], id=turns[-1].id, kind=BellKind.LATE, meaning=text)
