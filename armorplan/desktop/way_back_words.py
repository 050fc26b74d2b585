"""Ways back in words: the columns that stand side by side, and all that one of them asks for."""

from collections.abc import Iterator
from html import escape
from math import ceil, prod

from PySide6.QtCore import QCoreApplication

from armorplan.app.way_back_rows import Stuck, WayBack, WayBackMove, WaysBack
from armorplan.app.ways_back_words import folded
from armorplan.desktop.colours import Colours
from armorplan.desktop.twin_model import TwinRow
from armorplan.desktop.wording import minutes_text
from armorplan.kernel.units import span_words

DATE = 6
"""The column of the date; it is left out where no way tells one."""
FOLDED = (5, 3, 6, 2)
"""Left out where there is no room: what stays, hardware, the date, waiting; the words below tell them."""
_RISKY = "▲ "
SPITED_SHOWN = 2
"""So many reasons that a move does not heed are told; the rest are counted."""
STUCK_SHOWN = 4
"""So many steps that cannot be done are told with their reasons; the rest are counted."""


def _say(text: str) -> str:
    return QCoreApplication.translate("way_back", text)


def headings() -> tuple[str, ...]:
    """Return what the columns show."""
    return (
        _say("Way back"),
        _say("Work"),
        _say("Waiting"),
        _say("Hardware"),
        _say("Risk"),
        _say("Stays for good"),
        _say("Date"),
    )


def risk_words(way: WayBack) -> str:
    """Say a risk with a word beside the number: ``little risk, 8 %``."""
    sign = _RISKY if way.is_risky else ""
    return f"{sign}{_say('{0}, {1}').format(way.risk, pct_words(way.risk_pct))}"


def pct_words(pct: float) -> str:
    """Say a share that a maker need not know finer than whole per cents: ``8 %``, ``< 1 %``."""
    return _say("< 1 %") if 0 < pct < 1 else _say("{0} %").format(f"{pct:.0f}")


def way_rows(ways: tuple[WayBack, ...]) -> tuple[TwinRow, ...]:
    """Return a row for each way, in the order they came."""
    return tuple(_row(way) for way in ways)


def _row(way: WayBack) -> TwinRow:
    words = (
        title_words(way),
        minutes_text(ceil(way.minutes)),
        span_words(ceil(way.wait_min)) if way.wait_min else _say("none"),
        hardware_words(way) or _say("none"),
        risk_words(way),
        _say("yes") if way.leaves else _say("nothing"),
        way.finish,
    )
    named = zip(headings()[1:], words[1:], strict=True)
    best = (_say("The cheapest"),) if way.is_best else ()
    spoken = ". ".join((way.title, *best, *(f"{name}: {cell}" for name, cell in named if cell)))
    # Two short lines leave more of the width to the names, which tell the ways apart.
    cells = (words[0], *(word.replace(", ", ",\n", 1) for word in words[1:]))
    return TwinRow(key=way.id, cells=cells, spoken=spoken)


def title_words(way: WayBack) -> str:
    """Return a way's title, which says by what it leads back; the best one has a tick before it."""
    return f"\N{CHECK MARK} {way.title}" if way.is_best else way.title


def hardware_words(way: WayBack) -> str:
    """Say what a way uses up: ``2 × rivet 9 mm``; empty where it uses nothing."""
    return ", ".join(f"{count} × {what}" for what, count in way.hardware)


def stuck_html(stuck: tuple[Stuck, ...], colours: Colours, *, most: int = STUCK_SHOWN) -> str:
    """Return which steps cannot be done as things stand, each with its reason; every text is escaped."""
    if not stuck:
        return ""
    barred = [one for one in stuck if not one.harder]
    shown = (barred + [one for one in stuck if one.harder])[:most]
    lines = [f"<p><b>{escape(stuck_words(stuck))}</b></p>"]
    for one in shown:
        sign, colour = ("●", colours.drying) if one.harder else ("✖", colours.alarm)
        mark = f'<span style="color:{colour}"><b>{sign}</b></span>'
        lines.append(f"<p>{mark} <b>{escape(one.title)}</b>: {escape(one.why)}</p>")
    if len(stuck) > most:
        more = _say("And {0} more like these.").format(len(stuck) - most)
        lines.append(f"<p>{escape(more)}</p>")
    return "".join(lines)


def above_html(found: WaysBack, noted: str, *, is_short: bool = False) -> str:
    """Return what stands over the ways: what was recorded, what is wrong, the first step it bars.

    In short the reason is left to the words below the ways, where it stands as well.
    """
    lines = [noted, *found.mistakes[:1]]
    if found.stuck:
        first = min(found.stuck, key=lambda one: one.harder)
        why = first.title if is_short else f"{first.title}: {first.why}"
        lines += [stuck_words(found.stuck), why]
    return "<br/>".join(escape(line) for line in lines if line)


def stuck_words(stuck: tuple[Stuck, ...]) -> str:
    """Count the steps that cannot be done as things stand, and those that are only harder."""
    barred = sum(not one.harder for one in stuck)
    said = []
    if barred:
        one, many = _say("1 step cannot be done"), _say("{0} steps cannot be done")
        said.append((one if barred == 1 else many).format(barred))
    harder = len(stuck) - barred
    if harder:
        one, many = _say("1 step is harder to do"), _say("{0} steps are harder to do")
        said.append((one if harder == 1 else many).format(harder))
    return _say("{0} as things stand.").format(_say(", ").join(said))


def way_html(way: WayBack, colours: Colours) -> str:
    """Return a way's steps in order and all it asks for; every text is escaped."""
    steps = "".join(_runs_html(way.moves, colours))
    facts = "".join(f"<br/>{escape(fact)}" for fact in facts_of(way))
    surely = escape(surely_words(way))
    return f"<p><b>{escape(way.title)}</b>{facts}</p><ol>{steps}</ol><p>{surely}</p>"


def _runs_html(moves: tuple[WayBackMove, ...], colours: Colours) -> Iterator[str]:
    """Yield each move, those worked in one go as one; what was said of the like is not said again."""
    told = set[str]()
    sign = f"<span style='color:{colours.alarm}'><b>▲</b></span> "
    for title, run in folded(moves):
        lines = [escape(line) for line in _beside(run[0])]
        lines += [f"{sign}{escape(caution)}" for caution in run[0].cautions]
        new = "".join(f"<br/>{line}" for line in lines if line not in told)
        told.update(lines)
        yield f"<li><b>{escape(title)}</b>{_takes_html(run, colours)}{new}</li>"


def _takes_html(run: tuple[WayBackMove, ...], colours: Colours) -> str:
    minutes, wait_min = sum(one.minutes for one in run), sum(one.wait_min for one in run)
    good = prod(1 - one.risk_pct / 100 for one in run)
    takes = [_say("{0} at the bench").format(minutes_text(ceil(minutes)))] if minutes else []
    if wait_min:
        takes.append(_say("{0} waiting").format(span_words(ceil(wait_min))))
    if good < 1:
        takes.append(_say("risk {0}").format(pct_words(100 * (1 - good))))
    if not takes:
        return ""
    return f" <span style='color:{colours.quiet}'>– {escape(', '.join(takes))}</span>"


def _beside(move: WayBackMove) -> tuple[str, ...]:
    """Return how a move is done, with what, and what it does not heed."""
    lines = [move.detail] if move.detail else []
    if move.tool:
        lines.append(_say("Tool: {0}.").format(move.tool))
    shown, more = move.in_spite_of[:SPITED_SHOWN], len(move.in_spite_of) - SPITED_SHOWN
    lines += [_say("In spite of: {0}").format(why) for why in shown]
    if more > 0:
        lines.append(_say("And in spite of {0} more like that.").format(more))
    return tuple(lines)


def facts_of(way: WayBack) -> tuple[str, ...]:
    """Say in whole lines what the columns say, and what stays for good."""
    waits = span_words(ceil(way.wait_min)) if way.wait_min else _say("no waiting")
    lines = [
        _say("{0} at the bench, {1}; {2}, that something spoils.").format(
            minutes_text(ceil(way.minutes)),
            waits if not way.wait_min else _say("{0} waiting").format(waits),
            risk_words(way),
        )
    ]
    if way.hardware:
        lines.append(_say("It uses up {0}.").format(hardware_words(way)))
    lines += [_say("Stays for good: {0}").format(one) for one in way.leaves]
    if way.finish:
        lines.append(_say("Finished {0}, by a first plan of this build alone.").format(way.finish))
    return tuple(lines)


def surely_words(way: WayBack) -> str:
    """Say whether it is the best, and how far its search is to be trusted."""
    best = _say("\N{CHECK MARK} The cheapest of these ways. ") if way.is_best else ""
    risky = _say("\N{BLACK UP-POINTING TRIANGLE} Take it only where nothing else will do. ")
    proved = _say("Proved: nothing cheaper rests on the same means.")
    near = _say("At most {0} % dearer than the cheapest that rests on the same means.")
    shared = _say("Not proved: work that its moves share was put together afterwards.")
    unsure = near.format(f"{way.gap_pct:.0f}") if way.gap_pct else shared
    surely = proved if way.proved else unsure
    return f"{best}{risky if way.is_risky else ''}{surely}"


def found_html(found: WaysBack, colours: Colours) -> str:
    """Return what is wrong and the answer to it; every text is escaped."""
    taken = ""
    if found.taken:
        words = _say("Counted as standing already: {0}.").format("; ".join(found.taken))
        taken = f"<p>{escape(words)}</p>"
    told = f"<p>{escape(found.told)}</p>" if found.told else ""
    untold = (one for one in found.mistakes if one not in found.told)
    wrong = "".join(f"<p>{escape(one)}</p>" for one in untold)
    return f"{wrong}{stuck_html(found.stuck, colours)}{taken}{told}"
