"""How high a part stands where it lies in a tray: flat as its thickness, formed as its arch."""

from math import cos, radians

from armorplan.assembly.model import Assembly, SidedForm
from armorplan.pattern.joining import FormKind, Route

_BEFORE_DYE = (Route.DAMP, Route.HARDENED, Route.WET_FOLD)
"""These are shaped before dye and finish; forms by hand or by a seam come after."""
_HALF_TURN_DEG, _FULL_TURN_DEG = 180.0, 360.0


def arch_mm(radius_mm: float, angle_deg: float, thickness_mm: float) -> float:
    """Return the height in mm of a bent strip that lies on its two edges, hollow side down."""
    half = radians(min(angle_deg, _FULL_TURN_DEG) / 2)
    outer_mm = radius_mm + thickness_mm
    foot_mm = radius_mm if angle_deg <= _HALF_TURN_DEG else outer_mm
    return outer_mm - foot_mm * cos(half)


def _height_mm(sided: SidedForm, thickness_mm: float) -> float | None:
    form = sided.form
    if form.kind is FormKind.FOLD:
        return 2 * (thickness_mm + (form.radius_mm or 0.0))
    if form.radius_mm is None or form.angle_deg is None:
        return None
    return arch_mm(form.radius_mm, form.angle_deg, thickness_mm)


def formed_heights(assembly: Assembly) -> dict[str, float | None]:
    """Return the height in mm of each sided part formed before dye; ``None``: not to be told."""
    found: dict[str, float | None] = {}
    for sided in assembly.forms:
        if sided.form.route not in _BEFORE_DYE:
            continue
        for part in sided.parts:
            height_mm = _height_mm(sided, assembly.part(part).part.thickness_mm)
            known = found.get(part, 0.0)
            both = height_mm is not None and known is not None
            found[part] = max(height_mm, known) if both else None  # type: ignore[type-var]
    return found
