"""Chains of plain lames on pivots, bent half round, each layer outside longer by pi times its leather."""

from dataclasses import replace
from math import pi

from geometry.leather_sketches import box, shelf

from armorplan.geometry.lames.measuring import lame_measures
from armorplan.pattern.joining import Form, FormKind, Joint, JointKind, Motion, Route
from armorplan.pattern.moving import Movement
from armorplan.pattern.parts import Hole, Material, Part, PartKind
from armorplan.pattern.pattern import Pattern, Piece

THICK_MM = 3.0
RADIUS_MM = 50.0
"""Of the middle of the innermost lame."""
END_MM = 15.0
HIDE = Material(id="hide", leather="cop", thickness_mm=THICK_MM)


def span_mm(layer):
    """Return how far the pivots of a lame lie apart, so many layers out."""
    return pi * (RADIUS_MM + layer * THICK_MM)


def lame(name, layer, *, high_mm=60.0, low_mm=15.0, at=(0.0, 0.0), **rows):
    """A rectangle about the middle of its lower pivots: ``high_mm`` up and ``low_mm`` down.

    ``out`` and ``inward`` say how far up its pivots with the next plate outside and inside lie.
    """
    half = span_mm(layer) / 2
    x, y = at
    holes = [
        Hole(id=f"{name}_{row}_{side}", part=name, centre=(x + s * half, y - up), diameter_mm=5.5)
        for row, up in (("out", rows.get("out")), ("in", rows.get("inward")))
        if up is not None
        for side, s in (("near", -1), ("far", 1))
    ]
    wide = 2 * half + 2 * END_MM
    return Part(
        id=name,
        name=name.replace("_", " "),
        piece="piece",
        kind=PartKind.LAME,
        outline=box(wide, high_mm + low_mm, (x - wide / 2, y - high_mm)),
        material="hide",
        thickness_mm=THICK_MM,
        holes=tuple(holes),
    )


def pivot(name, *stack, motion=Motion.TURNING):
    return Joint(id=name, kind=JointKind.SCREW, stack=stack, fastener="post", motion=motion)


def pivots(outer, inner):
    """The two pivots of a lame under the next one outside it."""
    return tuple(
        pivot(f"{outer}_{inner}_{side}", f"{outer}_in_{side}", f"{inner}_out_{side}")
        for side in ("near", "far")
    )


def bent(*parts):
    """Each bent half round, its radius left open."""
    return tuple(
        Form(id=f"{p}_round", kind=FormKind.BEND, parts=(p,), route=Route.DAMP, angle_deg=180.0)
        for p in parts
    )


def chain(*parts, joints, movement=None, forms=None):
    named = tuple(part.id for part in parts)
    return Pattern(
        uuid="00000000-0000-0000-0000-000000000000",
        slug="sketch",
        name="sketch",
        version=1,
        content_hash="",
        pieces=(Piece(id="piece", name="Piece"),),
        materials=(HIDE,),
        parts=parts,
        joints=joints,
        forms=bent(*named) if forms is None else forms,
        movements=() if movement is None else (movement,),
    )


def bending(*parts, angle_deg, shares_deg=()):
    return Movement(
        id="bend", name="the elbow bends", parts=parts, angle_deg=angle_deg, shares_deg=shares_deg
    )


def two_lames(*, angle_deg=40.0, overlap_mm=60.0, **spots):
    """A lame under another: ``overlap_mm`` lie over each other; ``spots`` move holes by mm."""
    upper = lame("upper", 0, low_mm=0.0, high_mm=80.0, out=0.0)
    lower = lame("lower", 1, high_mm=overlap_mm, low_mm=60.0, inward=0.0, at=(0.0, 200.0))
    movement = None if angle_deg is None else bending("upper", "lower", angle_deg=angle_deg)
    return moved(chain(upper, lower, joints=pivots("lower", "upper"), movement=movement), **spots)


def moved(pattern, **spots):
    """Return a pattern with holes moved, each by (mm right, mm down)."""
    parts = tuple(
        replace(
            part,
            holes=tuple(
                replace(h, centre=(h.centre[0] + spots[h.id][0], h.centre[1] + spots[h.id][1]))
                if h.id in spots
                else h
                for h in part.holes
            ),
        )
        for part in pattern.parts
    )
    return replace(pattern, parts=parts)


def measures(pattern):
    return {measure.id: measure for measure in lame_measures(pattern, shelf())}


def findings(pattern):
    return [finding for measure in measures(pattern).values() for finding in measure.findings]


def codes(pattern):
    return [finding.code for finding in findings(pattern)]


def figure(measure, name):
    return next(f.value for f in measure.figures if f.name == name)
