"""Patterns of two or three layers in rows, for the tests of rows that meet."""

from itertools import accumulate

from geometry.leather_sketches import box, part, pattern, rivet, shelf

from armorplan.geometry.rows.measuring import row_measures
from armorplan.pattern.joining import Form, FormKind, Route, Seam


def straight(*spans, y=30.0, start=10.0):
    """Spots of a straight row with these spacings in mm."""
    return [(x, y) for x in accumulate(spans, initial=start)]


def layers(*rows, kind=None, sewn=True, forms=()):
    """Layers ``a``, ``b``, ``c`` … joined by one row: ``j0`` through ``a_0``, ``b_0`` and so on."""
    names = "abcdef"[: len(rows)]
    parts = [
        part(
            f"layer_{name}",
            box(900.0, 60.0),
            {f"{name}_{at}": spot for at, spot in enumerate(row)},
            **({} if kind is None else {"kind": kind}),
        )
        for name, row in zip(names, rows, strict=True)
    ]
    joints = tuple(
        rivet(f"j{at}", *(f"{name}_{at}" for name in names)) for at in range(len(rows[0]))
    )
    seam = Seam(id="row", name="front row", joints=tuple(joint.id for joint in joints))
    made = pattern(*parts, joints=joints, seams=(seam,) if sewn else ())
    return made if not forms else _with(made, forms)


def _with(made, forms):
    from dataclasses import replace

    return replace(made, forms=forms)


def bend(*parts, radius_mm=95.0, angle_deg=180.0, kind=FormKind.BEND, axis=None):
    return Form(
        id="round",
        kind=kind,
        parts=parts,
        route=Route.DAMP,
        radius_mm=radius_mm,
        angle_deg=angle_deg,
        axis=axis,
    )


def measured(sketch, on=None):
    return tuple(row_measures(sketch, on or shelf()))


def told(sketch, on=None):
    return [finding for measure in measured(sketch, on) for finding in measure.findings]
