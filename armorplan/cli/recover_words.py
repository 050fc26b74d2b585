"""Ways back as lines for a terminal."""

from collections.abc import Iterator
from textwrap import wrap

from armorplan.app.way_back_rows import WayBack, WayBackMove, WaysBack
from armorplan.app.ways_back_words import folded, hardware_words, takes_words
from armorplan.kernel.units import span_words
from armorplan.orders.recovery.remaking import ANEW

_WIDE = 100
_NAMED = 3
_STUCK = 6


def recover_lines(found: WaysBack, *, all_ways: bool) -> Iterator[str]:
    """Yield what is wrong, then the ways back, the best step by step."""
    yield from wrap(found.told, _WIDE)
    yield from _taken_lines(found)
    yield from _stuck_lines(found)
    for at, way in enumerate(found.ways, start=1):
        yield ""
        yield from _way_lines(at, way, in_full=all_ways or way.is_best)


def _taken_lines(found: WaysBack) -> Iterator[str]:
    count = len(found.taken)
    if count:
        named = "; ".join(found.taken[-_NAMED:])
        words = f"Taken as done: {count} steps, the last of them {named}."
        yield from wrap(words if count > _NAMED else f"Taken as done: {named}.", _WIDE)


def _stuck_lines(found: WaysBack) -> Iterator[str]:
    for heading, harder in (("Too late:", False), ("Harder now:", True)):
        some = [one for one in found.stuck if one.harder is harder]
        if some:
            yield ""
            yield heading
        for one in some[:_STUCK]:
            yield from _hung(f"- {one.title}: {one.why}", "  ")
        if len(some) > _STUCK:
            yield f"  and {len(some) - _STUCK} more."


def _way_lines(at: int, way: WayBack, *, in_full: bool) -> Iterator[str]:
    best = " (best)" if way.is_best else ""
    risky = " Only where nothing else will do." if way.is_risky else ""
    yield from _hung(f"{at}. {way.title}{best}", "   ")
    yield from _hung(f"   {takes_words(way).capitalize()}.{risky}", "   ")
    if not way.proved and not way.gap_pct:
        yield "   Not proved: work that its moves share was put together afterwards."
    elif not way.proved:
        yield f"   Not proved: at most {way.gap_pct:.0f} % dearer than the cheapest of its kind."
    if way.hardware:
        yield from _hung(f"   Uses up {hardware_words(way.hardware)}.", "   ")
    for leaves in way.leaves:
        yield from _hung(f"   Stays for good: {leaves}", "   ")
    if in_full:
        yield from _move_lines(way)


def _move_lines(way: WayBack) -> Iterator[str]:
    told = set[str]()
    for number, (title, run) in enumerate(folded(way.moves), start=1):
        yield from _hung(f"   {number:2d}. {title}{_takes(run)}", "       ")
        for words in _beside(run):
            if words not in told:
                told.add(words)
                yield from _hung(f"       {words}", "       ")


def _takes(run: tuple[WayBackMove, ...]) -> str:
    minutes = sum(move.minutes for move in run)
    waits = sum(move.wait_min for move in run)
    bits = [span_words(max(1, round(minutes)))] if minutes else []
    if waits:
        bits.append(f"{span_words(round(waits))} of waiting")
    return f" ({', '.join(bits)})" if bits else ""


def _beside(run: tuple[WayBackMove, ...]) -> Iterator[str]:
    first = run[0]
    if first.group.startswith(ANEW):
        yield from (f"{'; '.join(move.title for move in run)}." for _ in run[1:2])
        return
    if first.detail:
        yield f"{first.detail[:1].upper()}{first.detail[1:]}"
    if first.opens or first.means:
        yield from (f"! {caution}" for caution in first.cautions)


def _hung(words: str, indent: str) -> list[str]:
    return wrap(words, _WIDE, subsequent_indent=indent, drop_whitespace=True)
