"""The judgement of an order as lines to read: what is wrong, how to mend it, what it costs."""

from collections.abc import Iterator, Mapping

from armorplan.app.effort_judged import cost_words
from armorplan.app.judged_order import JudgedOrder
from armorplan.orders.repairing import Repair
from armorplan.orders.tidying import Mend, Move


def judged_lines(judged: JudgedOrder, title: Mapping[str, str]) -> Iterator[str]:
    """Yield the lines; ``title``: of each step by its id."""
    yield judged.sentence
    if judged.cost is not None:
        yield from cost_words(judged.cost, title)
    if judged.mend is not None and judged.repair is not None:
        yield from _mend_lines(judged.mend, judged.repair, title)


def _mend_lines(mend: Mend, repair: Repair, title: Mapping[str, str]) -> Iterator[str]:
    by_rows = any(move.turned or move.before or len(move.steps) > 1 for move in mend.moves)
    if by_rows:
        yield "To mend it:"
    else:
        fewest = "" if repair.exact else f" (at least {repair.at_least} have to)"
        count = len(repair.moved)
        yield f"Mended by moving {count} step{'s' * (count != 1)}{fewest}:"
    for move in mend.moves:
        yield f"  {_move_words(move, title)}"


def _move_words(move: Move, title: Mapping[str, str]) -> str:
    first, last = (f"'{title[step]}'" for step in (move.steps[0], move.steps[-1]))
    if move.turned:
        return f"Begin at {first} and work to {last}."
    what = first if len(move.steps) == 1 else f"{first} to {last}"
    if move.before:
        go = "goes" if len(move.steps) == 1 else "go"
        return f"{what} {go} before the row is begun with '{title[move.before]}'"
    return f"{what} to after '{title[move.after]}'" if move.after else f"{what} to the very front"
