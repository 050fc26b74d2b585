"""The numbers of reach, each with the way it was come by."""

from collections.abc import Iterator

from armorplan.geometry.reach.model import Margin, Rim, Shell, Standing, Through, Way
from armorplan.geometry.reach.words import is_at_most, tool_name
from armorplan.geometry.sources import COMPUTED
from armorplan.kernel.figures import Figure
from armorplan.workshop.constants import Constant
from armorplan.workshop.shelf import Shelf

CONVEX = "geometry of convex shells: a meridian is no longer than its depth, its way out and back"
ROUND = "circle geometry: the mouth pressed round"
BALL = "circle geometry: the mouth pressed round; and of a ball of R, radius_mm of the dish, no cut is wider"


def shell_figures(shell: Shell) -> Iterator[Figure]:
    """Yield the length, the width and the girth behind each mouth."""
    for at, rim in enumerate(shell.rims, start=1):
        which = "" if len(shell.rims) == 1 else f" {at}"
        yield Figure(
            name=f"edge of mouth{which} P",
            value=rim.length_mm,
            unit="mm",
            formula="along the edge, once round, from row to row",
            source=COMPUTED,
        )
        formula, source = _round(rim)
        yield Figure(
            name=f"mouth{which}, wide{' at most' if is_at_most(shell, rim) else ''}",
            value=rim.opening_mm,
            unit="mm",
            formula=f"{formula} = {rim.opening_mm:.0f} mm",
            source=source,
        )
        if (girth_mm := shell.girth_mm.get(rim.id)) is not None:
            yield Figure(
                name=f"largest girth behind mouth{which} G",
                value=girth_mm,
                unit="mm",
                formula="the longest line of equal distance from the mouth's edge",
                source=COMPUTED,
            )


def _round(rim: Rim) -> tuple[str, str]:
    """Return how the width of a mouth is come by, and by what."""
    if rim.ball_mm is None:
        return f"P / π = {rim.length_mm:.0f} / π", ROUND
    return f"min(P / π, 2 R) = min({rim.length_mm:.0f} / π, 2 × {rim.ball_mm / 2:.0f})", BALL


def margin_figures(shell: Shell, margin: Margin, shelf: Shelf, squash: float) -> Iterator[Figure]:
    """Yield the numbers by which a tool gets to a joint, or not; none where it lies flat."""
    way = margin.way
    if margin.standing is Standing.FLAT or way is None:
        return
    yield Figure(
        name="way in along the leather d",
        value=way.along_mm,
        unit="mm",
        formula="the shortest way over the shell with its rows closed; "
        + (
            "where it curves inwards its wall may stand in a straight tool's way"
            if shell.hollow
            else "a straight tool needs no more"
        ),
        source=COMPUTED,
    )
    yield _least(shell, way)
    yield from _opening(shell, margin, way, (shelf.constants.row_gape, squash))
    if margin.reach_mm is not None:
        yield _reach(margin, margin.reach_mm, shelf)


def _least(shell: Shell, way: Way) -> Figure:
    least_mm = way.least_mm
    source = CONVEX
    if shell.hollow:
        formula = "0: the shell curves inwards, or this is not known; nothing is sure there"
    elif way.through is Through.RIM:
        rim = next(rim for rim in shell.rims if rim.id == way.name)
        girth_mm = max(shell.girth_mm.get(way.name, 0.0), rim.length_mm)
        even_mm = rim.length_mm if rim.even_mm is None else rim.even_mm
        formula = (
            f"max(0, d - (2G - P) / 2π) = max(0, {way.along_mm:.0f} - (2 × {girth_mm:.0f} - "
            f"{even_mm:.0f}) / 2π) = {least_mm:.0f} mm"
        )
        if even_mm < rim.length_mm:
            formula += (
                f"; P without the waves of its edge, {even_mm:.0f} of {rim.length_mm:.0f} mm"
            )
    else:
        girth_mm = max(shell.girth_mm.values(), default=0.0)
        formula = (
            f"max(0, d - G / π) = max(0, {way.along_mm:.0f} - {girth_mm:.0f} / π) = "
            f"{least_mm:.0f} mm"
        )
    return Figure(
        name="a straight tool needs at least",
        value=least_mm,
        unit="mm",
        formula=formula,
        source=source,
    )


def _opening(
    shell: Shell, margin: Margin, way: Way, gives: tuple[Constant, float]
) -> Iterator[Figure]:
    width_mm, (gape, squash) = margin.opening_mm, gives
    if width_mm is None or width_mm == float("inf"):
        return
    if way.through is Through.RIM:
        formula, source = _round(next(rim for rim in shell.rims if rim.id == way.name))
    else:
        formula = f"{gape.value:g} × the way along the row to the nearest rivet made"
        source = gape.source
    yield Figure(
        name="opening",
        value=width_mm,
        unit="mm",
        formula=f"{formula} = {width_mm:.0f} mm; squashed it is {squash:g} times as wide",
        source=source,
    )


def _reach(margin: Margin, reach_mm: float, shelf: Shelf) -> Figure:
    tool = next((each for each in shelf.tools if each.id == margin.tool), None)
    least_mm = 0.0 if tool is None else tool.opening_mm
    return Figure(
        name=f"reach of {tool_name(shelf, margin.tool)}",
        value=reach_mm,
        unit="mm",
        formula=f"as the shelf says; it goes in through {least_mm:.0f} mm and more",
        source="" if tool is None else tool.source,
    )
