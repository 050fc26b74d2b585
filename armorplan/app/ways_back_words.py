"""Ways back in a maker's words: what a way rests on, what it takes, how risky it is."""

import re
from collections.abc import Iterable, Sequence
from itertools import groupby

from armorplan.app.way_back_rows import WayBack, WayBackMove
from armorplan.kernel.units import span_words
from armorplan.orders.recovery.model import Means
from armorplan.orders.recovery.remaking import ANEW
from armorplan.steps.naming import lowered

_HARDLY, _LITTLE, _SOME, _CONSIDERABLE = 0.5, 4.0, 10.0, 20.0
_ONE_OF = re.compile(r", \d+ of \d+")
"""Which one of its row a step is: left out where the row is told as one line."""
_HOW = re.compile(r", ((?:as it stands now|from inside).*)$")
_THERE = (Means.IN_PLACE, Means.OTHER_TOOL)
_VERBS = {
    "Drill out the rivet": ("Drill out", "rivet"),
    "Undo the screw post": ("Undo", "screw post"),
    "Cut the stitches": ("Cut open", "stitched row"),
    "Peel the glue open": ("Peel open", "glued face"),
    "Untie the lace": ("Untie", "lace"),
}


def risk_words(risk_pct: float) -> str:
    """Return a risk in words, without its number."""
    words = "hardly any risk"
    for least, said in ((_HARDLY, "little risk"), (_LITTLE, "some risk")):
        if risk_pct >= least:
            words = said
    if risk_pct >= _SOME:
        words = "a fair risk"
    if risk_pct > _CONSIDERABLE:
        words = "a high risk"
    return words


def takes_words(way: WayBack) -> str:
    """Return what a way takes: ``17 min at the bench, then 3 days of waiting; little risk, 3 %``."""
    hands = "no work" if way.minutes < 1 else f"{span_words(round(way.minutes))} at the bench"
    waits = f", and {span_words(round(way.wait_min))} of waiting" if way.wait_min >= 1 else ""
    share = f", {way.risk_pct:.0f} %" if way.risk_pct >= _HARDLY else ""
    return f"{hands}{waits}; {way.risk}{share}"


def hardware_words(hardware: Iterable[tuple[str, int]]) -> str:
    """Return what is used up: ``2 × Double-cap rivet, 9 mm cap, post 8 mm``."""
    return "; ".join(f"{count} × {what}" for what, count in hardware)


def way_title(moves: Sequence[WayBackMove]) -> str:
    """Return what a way does, in a few words: what is opened, then what it rests on."""
    opened = [move for move in moves if move.opens]
    bits = [*_opened_words(opened), *_done_words(moves)]
    said = list(dict.fromkeys(bits)) or [moves[0].title if moves else "Go on"]
    return "; ".join([said[0], *(lowered(each) for each in said[1:])])


def _opened_words(opened: Sequence[WayBackMove]) -> Iterable[str]:
    """Yield what is cut anew, then what is opened; what only comes off only where nothing else does."""
    counts: dict[str, int] = {}
    off = list[str]()
    for move in opened:
        head, _, what = move.title.partition(": ")
        if move.means == Means.REMAKE:
            yield head
        elif head in _VERBS:
            counts[head] = counts.get(head, 0) + 1
        elif move.minutes:
            off.append(f"{head.removesuffix(' again')}: {what}")
    yield from () if counts else off
    for head, count in counts.items():
        verb, thing = _VERBS[head]
        new = f", and set {'it' if count == 1 else 'them'} anew" if thing == "rivet" else ""
        yield f"{verb} {count} {thing}{'' if count == 1 else 's'}{new}"


def _done_words(moves: Sequence[WayBackMove]) -> Iterable[str]:
    rest = [m for m in moves if not m.opens and m.means and m.means != Means.REMAKE]
    for means in (Means.IN_PLACE, Means.OTHER_TOOL):
        yield from _set_there([move.title for move in rest if move.means == means])
    others = (m for m in rest if not m.left_out and m.means not in _THERE)
    yield from (move.title for move in others)
    left_out = [move.title for move in rest if move.left_out]
    if len(left_out) > 1:
        where = left_out[0].partition(": ")[2]
        yield f"Leave {len(left_out)} steps out, among them {where}"
    else:
        yield from left_out


def _set_there(titles: Sequence[str]) -> Iterable[str]:
    """Yield what is set where it sits; of some how the first of them is: ``Set 2 as they stand now``."""
    how = _HOW.search(titles[0]) if len(titles) > 1 else None
    if how is None:
        yield from titles[:1]
        yield from (f"set {len(titles) - 1} more like it" for _ in titles[1:2])
    else:
        yield f"Set {len(titles)} {how[1].replace('as it stands', 'as they stand')}"


def folded(moves: Sequence[WayBackMove]) -> tuple[tuple[str, tuple[WayBackMove, ...]], ...]:
    """Return moves as lines: what is opened or set again in one row one after the other is one line."""
    lines = []
    for _, some in groupby(moves, key=_fold_key):
        run = tuple(some)
        lines.append((_run_title(run), run))
    return tuple(lines)


def _fold_key(move: WayBackMove) -> object:
    return (move.opens, move.means, move.group) if move.group else move.id


def _run_title(run: tuple[WayBackMove, ...]) -> str:
    first = run[0]
    if len(run) == 1:
        return first.title
    head, _, where = first.title.partition(": ")
    place = _ONE_OF.sub("", where or first.title)
    if first.opens and head in _VERBS:
        verb, thing = _VERBS[head]
        return f"{verb} {len(run)} {thing}s: {place}"
    if first.group.startswith(ANEW):
        return f"Do again what was done to it: {len(run)} steps, to '{run[-1].title}'"
    again = " again" if all(move.title.endswith(" again") for move in run) else ""
    return f"{place}: {len(run)} of them{again}"
