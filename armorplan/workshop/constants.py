"""Numbers of the bench that no drawing tells: what leather gives, and what a maker still accepts.

Each is the maker's to change, in a file ``constants.toml`` among their own catalogues.
"""

from dataclasses import dataclass

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Constant:
    """One number of the bench with its unit, what it is for, and where it comes from."""

    value: float
    unit: str
    name: str
    source: str = PRACTICE


@dataclass(frozen=True, slots=True, kw_only=True)
class Constants:
    """The numbers of the bench, by the names they have in ``constants.toml``.

    Attributes:
        pinch: how much leather gives under a fastener.
        misfit: up to here punch and leather make up a difference in spacing.
        bad_misfit: beyond here the slack of two holes no longer does.
        oval: up to so many hole diameters a hole in cut leather can be made oval.
        flat_slide: up to this slide per spacing layers riveted flat can be bent.
        damp_slide: up to this slide per spacing it goes damp, or with oval holes.
        neutral: where the layer lies that keeps its length, as a share of the thickness from inside.
        dry_radius: least inner radius of a dry bend, in thicknesses.
        damp_radius: least inner radius of a bend made damp, in thicknesses.
        kept_cover: what has to lie under the plate outside it when a lame is bent to the end.
        soft_play: so much off its axis a pivot may be before soft leather binds.
        short_lame: so much too short between its pivots a lame still goes over the one under it.
        bad_short_lame: beyond here it does not.
        row_gape: how wide a row not yet made gapes, for each mm along it to the nearest joint made.
        squash_raw: how much wider a mouth is squashed before its finish, as a multiple of its width.
        squash_finished: the same after the finish.
        hand_depth: up to here on a shaped part that stands open work is as at hand.
        curved_effort: minutes on a shaped part, as a multiple of those on the flat bench.
        inside_effort: the same inside a shape, at the full reach of the tool.
        end_effort: the same where the tool only just reaches.
        tool_change: minutes to take up another tool.
        turn_over: minutes to turn the work over or round to another opening.
        load_row: share of a row's minutes that loading all of it before setting saves.
        dry_share: back within so much of its weight before the bath a piece is dry.
    """

    pinch: Constant = Constant(
        value=7.5,
        unit="%",
        name="leather gives under a fastener",
        source=f"{PRACTICE} (5–10 %, from memory)",
    )
    misfit: Constant = Constant(
        value=0.5, unit="mm", name="difference in spacing that leather makes up"
    )
    bad_misfit: Constant = Constant(
        value=1.0,
        unit="mm",
        name="difference in spacing that two holes no longer make up",
        source="fastener makers' clearance of 0.25–0.38 mm round the shank, at two holes",
    )
    oval: Constant = Constant(
        value=2.0, unit="hole diameters", name="a hole in cut leather can be made oval by"
    )
    flat_slide: Constant = Constant(
        value=5.0, unit="%", name="slide per spacing to rivet flat, then bend"
    )
    damp_slide: Constant = Constant(
        value=10.0, unit="%", name="slide per spacing with damp or oval holes"
    )
    neutral: Constant = Constant(
        value=0.5,
        unit="thicknesses from inside",
        name="where a bend keeps its length",
        source="from memory; measure a test strip",
    )
    dry_radius: Constant = Constant(
        value=3.0, unit="thicknesses", name="least inner radius, bent dry"
    )
    damp_radius: Constant = Constant(
        value=1.0, unit="thicknesses", name="least inner radius, bent damp"
    )
    kept_cover: Constant = Constant(
        value=10.0, unit="mm", name="what stays under the next plate at the end of the bend"
    )
    soft_play: Constant = Constant(
        value=3.0, unit="mm", name="off its axis before a pivot binds in soft leather"
    )
    short_lame: Constant = Constant(
        value=3.0, unit="mm", name="an outer lame too short before it binds on the one under it"
    )
    bad_short_lame: Constant = Constant(
        value=8.0, unit="mm", name="an outer lame too short to go over the one under it at all"
    )
    row_gape: Constant = Constant(
        value=0.35, unit="mm for each mm along the row", name="an open row gapes"
    )
    squash_raw: Constant = Constant(
        value=1.3, unit="times its width", name="a mouth is squashed open before its finish"
    )
    squash_finished: Constant = Constant(
        value=1.15, unit="times its width", name="a mouth is squashed open after its finish"
    )
    hand_depth: Constant = Constant(
        value=40.0, unit="mm", name="on a shape that stands open and still as at hand"
    )
    curved_effort: Constant = Constant(
        value=1.25, unit="times the flat bench", name="minutes on a shaped part"
    )
    inside_effort: Constant = Constant(
        value=2.0, unit="times the flat bench", name="minutes inside, at the tool's full reach"
    )
    end_effort: Constant = Constant(
        value=3.0, unit="times the flat bench", name="minutes where the tool only just reaches"
    )
    tool_change: Constant = Constant(value=1.0, unit="minutes", name="another tool taken up")
    turn_over: Constant = Constant(value=0.5, unit="minutes", name="the work turned over")
    load_row: Constant = Constant(
        value=10.0, unit="%", name="minutes saved where a row is loaded before it is set"
    )
    dry_share: Constant = Constant(
        value=2.0, unit="%", name="of its weight before the bath, within which a piece is dry"
    )
