"""What is said of layers that slide in a bend: verdict, sentences, findings and figures."""

from collections.abc import Iterator

from armorplan.geometry.bends.arcs import made_for_bent
from armorplan.geometry.bends.ends import ends_finding, ends_of, ends_words
from armorplan.geometry.bends.numbers import tenths
from armorplan.geometry.bends.slides import LayerSlide
from armorplan.geometry.bends.ways import Way
from armorplan.geometry.widths import STIFF
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants


def slide_verdict(slide: LayerSlide, way: Way, constants: Constants) -> str:
    """Say in a few words what to do, with the mm where a row has to give."""
    if way is Way.DAMP:
        return f"{way}{_or_oval(slide, constants)}"
    if way is Way.FIRST:
        return f"bend first, or space the outer row wider by {_wider_by(slide)}"
    if way is Way.PUNCHED_AFTER and slide.total_mm is not None:
        return f"{way}: holes come {slide.total_mm:.1f} mm apart"
    return str(way)


def _or_oval(slide: LayerSlide, constants: Constants) -> str:
    """Offer oval holes, unless they would be too long: ends are out by half where the middle meets."""
    oval_mm = (slide.total_mm or 0.0) / 2
    if oval_mm > constants.oval.value * slide.hole_mm:
        return ""
    return f", or make the outer holes oval by {oval_mm:.1f} mm"


def _wider_by(slide: LayerSlide) -> str:
    """Say how much wider the spacings of the outer row would have to be."""
    found = sorted(s.slide_mm for s in slide.spacings if s.slide_mm)
    if not found:
        return f"{slide.total_mm or 0.0:.1f} mm in all"
    least, most = f"{found[0]:.1f}", f"{found[-1]:.1f}"
    return f"{most} mm each" if least == most else f"{least} to {most} mm each"


def slide_text(pattern: Pattern, slide: LayerSlide, way: Way, constants: Constants) -> str:
    """Say in sentences how far the layers slide, and what follows."""
    outer, inner = (pattern.part(part).name for part in (slide.outer, slide.inner))
    ends = ends_of(pattern, slide, way)
    tighter = _tighter_than_beneath(pattern, slide, constants)
    return " ".join(
        (
            *(() if tighter is None else (tighter.text,)),
            *_extent(outer, inner, slide),
            *_follows(outer, inner, way, slide, constants),
            *(() if ends is None else (ends_words(outer, inner, ends),)),
        )
    )


def _extent(outer: str, inner: str, slide: LayerSlide) -> Iterator[str]:
    if slide.along:
        yield f"The row through {outer} and {inner} lies along the bend, where nothing slides."
        return
    if slide.total_mm is None:
        yield (
            f"{outer} slides on {inner} when both are bent; how far, the pattern does not tell: "
            "neither radius nor angle is written."
        )
        return
    yield (
        f"{outer} lies {slide.apart_mm:.1f} mm outside {inner}, middle to middle, and slides on it "
        f"by {slide.total_mm:.1f} mm from the first fastener to the last when both are bent"
        + (f" to {tenths(slide.radius_mm)} mm: " if slide.radius_mm else ".")
        + (f"{slide.slide_pct:.1f} % of the spacing." if slide.slide_pct is not None else "")
    )
    if not slide.has_axis:
        yield (
            "No axis is written, so the row is taken to lie across the bend; write axis if it lies "
            "along it."
        )


def _follows(
    outer: str, inner: str, way: Way, slide: LayerSlide, constants: Constants
) -> Iterator[str]:
    if way is Way.MADE_BENT:
        yield (
            f"The row on {outer} is drawn {slide.wider_mm:.1f} mm longer, about as the bend asks for: "
            f"it is made for the bent state. {way.capitalize()}."
        )
        return
    if not slide.along and slide.total_mm is not None and slide.wider_mm > constants.misfit.value:
        yield (
            f"The row on {outer} is drawn {slide.wider_mm:.1f} mm longer; for the bent state it would "
            f"have to be {slide.total_mm:.1f} mm longer{_where_it_misses(slide)}."
        )
    if way is Way.FLAT and not slide.along:
        yield f"Up to {constants.flat_slide.value:g} % leather gives: rivet flat, then bend."
    elif way is Way.PUNCHED_AFTER:
        yield (
            f"Shape both, then punch {outer} through the holes of {inner}; or draw its row wider by "
            f"{_wider_by(slide)} and punch both flat."
        )
    elif way is Way.PUNCHED_FLAT and not slide.along:
        yield f"Holes make up {constants.misfit.value:g} mm: punch both flat."


def _where_it_misses(slide: LayerSlide) -> str:
    """Say which spacing is farthest from what the bend asks, where the whole row is about right."""
    known = [(s, s.slide_mm) for s in slide.spacings if s.slide_mm is not None]
    if not known or not made_for_bent(slide.wider_mm, slide.total_mm or 0.0):
        return ""
    worst, slide_mm = max(known, key=lambda each: abs(each[0].longer_mm - each[1]))
    return (
        f", each spacing by its own share: from '{worst.one}' to '{worst.other}' it is "
        f"{worst.longer_mm:.1f} mm longer where the bend asks for {slide_mm:.1f} mm"
    )


def _tighter_than_beneath(
    pattern: Pattern, slide: LayerSlide, constants: Constants
) -> Finding | None:
    """Return a stiff layer that is bent tighter than the one on which it lies.

    What is not stiff follows the end of a tapered plate, which is narrower there than its bend says.
    """
    own_mm, under_mm = slide.own_radius_mm, slide.radius_mm
    outer, inner = pattern.part(slide.outer), pattern.part(slide.inner)
    if own_mm is None or under_mm is None or outer.kind not in STIFF:
        return None
    if own_mm >= under_mm - constants.misfit.value:
        return None
    asked_mm = under_mm + slide.apart_mm + (inner.thickness_mm - outer.thickness_mm) / 2
    lift = f"{tenths(under_mm)} + {tenths(asked_mm - under_mm)} = {tenths(asked_mm)} mm"
    return Finding(
        code="bend-tighter-than-beneath",
        severity=Severity.WARNING,
        text=f"{outer.name} is bent to {tenths(own_mm)} mm and lies on {inner.name}, which is bent to "
        f"{tenths(under_mm)} mm: over it {lift} are asked for.",
        remedy=f"Turn their stacks round if {inner.name} lies outside; else write the radius of "
        f"'{slide.forms[0]}' as {tenths(asked_mm)} mm.",
        about=(*slide.forms, slide.outer, slide.inner, *slide.joints),
    )


def slide_findings(
    pattern: Pattern, slide: LayerSlide, way: Way, constants: Constants
) -> Iterator[Finding]:
    """Yield layers that do not bend once they are riveted, unless the row is made for it."""
    outer, inner = (pattern.part(part).name for part in (slide.outer, slide.inner))
    about = (slide.forms[0], slide.outer, slide.inner, *slide.joints)
    if way is Way.FIRST:
        yield Finding(
            code="bend-before-rivets",
            severity=Severity.WARNING,
            text=f"Riveted flat, {outer} and {inner} do not bend to {tenths(slide.radius_mm or 0.0)} mm: between "
            f"two fasteners the outer layer slides by {slide.slide_pct:.0f} % of their spacing; "
            f"{constants.damp_slide.value:g} % is the most.",
            remedy=f"Bend first and punch {outer} through {inner} then, or space the outer row wider "
            f"by {_wider_by(slide)}, {slide.total_mm or 0.0:.1f} mm in all.",
            about=about,
        )
    elif way is Way.DAMP:
        yield Finding(
            code="bend-damp-or-oval",
            severity=Severity.NOTE,
            text=f"{outer} and {inner}, riveted flat, bend to {tenths(slide.radius_mm or 0.0)} mm with force: the "
            f"outer layer slides by {slide.slide_pct:.1f} % of the spacing; dry leather gives "
            f"{constants.flat_slide.value:g} %.",
            remedy=f"Bend it damp{_or_oval(slide, constants)} at the ends of the row."
            if _or_oval(slide, constants)
            else "Bend it damp.",
            about=about,
        )
    tighter = _tighter_than_beneath(pattern, slide, constants)
    if tighter is not None:
        yield tighter
    ends = ends_of(pattern, slide, way)
    near = None if ends is None else ends_finding((outer, inner), ends, about, constants)
    if near is not None:
        yield near
