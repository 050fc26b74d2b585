"""Sentences about reach while a build is closed joint by joint."""

from PySide6.QtCore import QCoreApplication

from armorplan.app.reach_rows import Opening, ReachStop, RowReach, RowState, WayIn
from armorplan.desktop.standing_glyphs import standing_word
from armorplan.geometry.reach.model import Margin, Standing


def _tr(text: str) -> str:
    return QCoreApplication.translate("ClosingWords", text)


def mm(length_mm: float) -> str:
    """Return a length in whole millimetres."""
    return _tr("{n} mm").format(n=round(length_mm))


def place_words(stops: tuple[ReachStop, ...], at: int) -> str:
    """Return how many steps are done and which comes next."""
    head = _tr("{n} of {all} set.").format(n=at, all=len(stops))
    if at == len(stops):
        return f"{head} {_tr('All is closed.')}"
    return f"{head} {_tr('Next: {step}').format(step=stops[at].title)}"


def row_words(row: RowReach) -> str:
    """Return a row's gape as it is written at it; empty for a closed one."""
    if row.state is RowState.SHUT:
        return ""
    return gape_words(row.name, row.gape_mm)


def gape_words(row: str, gape_mm: float | None) -> str:
    """Return how wide a row gapes; ``None``: as wide as one likes."""
    if gape_mm is None:
        return _tr("{row}: open").format(row=row)
    return _tr("{row}: gapes {gape}").format(row=row, gape=mm(gape_mm))


def way_words(way: WayIn) -> str:
    """Return how a tool gets to a chosen joint, with its numbers, and what would bar it."""
    return " ".join(sentence for sentence in (_head(way), _bars(way)) if sentence)


def _head(way: WayIn) -> str:
    margin = way.reach.margin
    if margin is None:
        return _tr("Chosen: no shell is in its way.")
    head = _tr("Chosen: {standing}.")
    if way.reach.is_set:
        head = _tr("Chosen, set already: {standing}.")
        if margin.standing is Standing.CANNOT:
            head = _tr("Chosen, set in time; by now {standing}.")
    return head.format(standing=_standing(way, margin)) + _tool(way, margin)


def _standing(way: WayIn, margin: Margin) -> str:
    """Return how it can be set, how deep it lies and where the tool goes in."""
    word = standing_word(margin.standing)
    if way.opening is None:
        told = {
            Standing.FLAT: _tr("{standing}, any tool serves"),
            Standing.CANNOT: _tr("{standing}, no tool goes in"),
        }
        return told.get(margin.standing, "{standing}").format(standing=word)
    return _tr("{standing}, {n} in {opening}").format(
        standing=word, n=need_words(margin), opening=opening_words(way.opening)
    )


def opening_words(opening: Opening) -> str:
    """Return where a tool goes in, with how wide it is there."""
    if opening.wide_mm is None:
        return opening.words
    if opening.row:
        told = _tr("{opening}, which gapes {n} there")
    elif opening.once_shut:
        told = _tr("{opening} ({n} wide once all is closed)")
    else:
        told = _tr("{opening} ({n} wide)")
    wide = mm(opening.wide_mm)
    width = _tr("at most {n}").format(n=wide) if opening.at_most else wide
    return told.format(opening=opening.words, n=width)


def _tool(way: WayIn, margin: Margin) -> str:
    if margin.reach_mm is None:
        return ""
    tool = way.tool or _tr("The tool")
    return " " + _tr("{tool} reaches {n}.").format(tool=tool, n=mm(margin.reach_mm))


def need_words(margin: Margin) -> str:
    """Return the length a tool needs, as a range where a straight one may do with less."""
    if margin.way is None:
        return ""
    least, most = round(margin.way.least_mm), round(margin.way.along_mm)
    if least >= most:
        return mm(most)
    if least <= 0:
        return _tr("up to {n} mm").format(n=most)
    return _tr("{least} to {most} mm").format(least=least, most=most)


def _bars(way: WayIn) -> str:
    """Return which rows leave it harder, those first that put it out of reach."""
    told = []
    for standing in dict.fromkeys(bar.standing for bar in way.barred_by):
        bars = [bar for bar in way.barred_by if bar.standing is standing]
        rows = _tr("; or ").join(_tr(" and ").join(bar.names) for bar in bars)
        word = standing_word(standing).capitalize()
        deep = {round(bar.along_mm) for bar in bars if bar.along_mm is not None}
        if len(deep) == 1 and standing is not Standing.CANNOT:
            word = _tr("{standing}, up to {n} in,").format(standing=word, n=mm(deep.pop()))
        told.append(_tr("{standing} once closed: {rows}.").format(standing=word, rows=rows))
    return " ".join(told)
