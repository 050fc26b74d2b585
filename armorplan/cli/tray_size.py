"""A tray's size as it is written at an option, read before anything heavy is imported."""

import re
from argparse import ArgumentTypeError

from armorplan.workshop.shop import USUAL_TRAY, Tray

_SIZE = re.compile(r"(\d{1,5}(?:\.\d+)?)[x×](\d{1,5}(?:\.\d+)?)(?:[x×](\d{1,5}(?:\.\d+)?))?")


def tray_size(given: str) -> Tray:
    """Return a tray from ``600x400`` or, with its depth, ``600x400x120``, all in mm."""
    found = _SIZE.fullmatch(given.strip().lower())
    sides = [float(side) for side in found.groups() if side] if found else []
    if not sides or min(sides) <= 0:
        message = f"'{given}' is no tray. Write its inner sides in mm, such as 600x400"
        raise ArgumentTypeError(message)
    length_mm, width_mm, *depth_mm = sides
    return Tray(
        id="given",
        name=f"Tray, {length_mm:g} × {width_mm:g} mm",
        length_mm=length_mm,
        width_mm=width_mm,
        depth_mm=depth_mm[0] if depth_mm else USUAL_TRAY.depth_mm,
    )
