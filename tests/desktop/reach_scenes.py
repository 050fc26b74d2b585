"""Invented ways in, from easy to impossible, for the painting of sections."""

from armorplan.geometry.ways_in import (
    Fits,
    Getting,
    ReachPicture,
    Section,
    SectionTool,
    SectionWay,
)


def tool(name="Horn", reach_mm=250.0, thick_mm=35.0, fits=Fits.OPEN):
    return SectionTool(id=name, name=name, reach_mm=reach_mm, thick_mm=thick_mm, fits=fits)


def way(along_mm=330.0, least_mm=330.0, opening_mm=80.0, name="mouth", **more):
    squashed_mm = None if opening_mm is None else opening_mm * 1.3
    return SectionWay(
        name=name,
        along_mm=along_mm,
        least_mm=least_mm,
        opening_mm=opening_mm,
        squashed_mm=squashed_mm,
        **more,
    )


FLAT = Section(when="with nothing else set", getting=Getting.FLAT)


def picture(getting, at, *tools, before=(FLAT,)):
    shut = Section(when="once the row is shut", getting=getting, way=at, tools=tools)
    return ReachPicture(joint="strap_a", sections=(*before, shut))


SHORT = picture(Getting.CANNOT, way(), tool(), tool("Block", 160.0, 90.0, Fits.SQUASHED))
SPARE = picture(Getting.REACHED, way(175.0, 140.0), tool(), tool("Press", 70.0, 25.0))
BETWEEN = picture(Getting.DOUBTFUL, way(290.0, 230.0, 120.0, at_most=True), tool())
REFUSED = picture(Getting.CANNOT, way(320.0, 280.0, 24.0), tool(fits=Fits.NOT))
SQUASHED = picture(Getting.DOUBTFUL, way(120.0, 80.0, 30.0), tool(fits=Fits.SQUASHED))
OPEN_ROW = picture(
    Getting.REACHED, way(75.0, 0.0, None, name="open left row", hollow=True), tool(), before=()
)
CLOSED = ReachPicture(
    joint="strap_a",
    sections=(FLAT, Section(when="once the row is shut", getting=Getting.CANNOT)),
)
SCENES = {
    "short": SHORT,
    "spare": SPARE,
    "between": BETWEEN,
    "refused": REFUSED,
    "squashed": SQUASHED,
    "open row": OPEN_ROW,
    "closed": CLOSED,
}
