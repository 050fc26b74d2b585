"""How a drawing's page lies in mm: what its width, height and viewBox say, and what they lack."""

from fontTools.misc.transform import Identity, Transform

from armorplan.files.faults import Faults, brief
from armorplan.files.svg_tree import Element
from armorplan.files.transforms import ShapeFaultError, fit, physical_mm, view_box
from armorplan.kernel.findings import Place
from armorplan.kernel.units import MM_PER_INCH

_PX_MM = MM_PER_INCH / 96
"""One CSS pixel, which is what a user unit is where there is no view box."""


def page_transform(root: Element, place: Place, faults: Faults) -> Transform:
    """Return the way from the drawing's numbers to mm.

    After a fault, which is told, one unit stands for 1 mm, so that the rest can be checked.
    """
    if root.attrs.get("transform", "").strip():
        faults.error(
            "page-moved",
            "The outermost <svg> carries a transform, which programs read differently.",
            mend="Put it on a <g> inside.",
            place=place,
        )
    width, height = physical_mm(root.attrs.get("width")), physical_mm(root.attrs.get("height"))
    try:
        box = view_box(root.attrs)
    except ShapeFaultError as fault:
        faults.error(fault.code, fault.text, mend=fault.mend, place=place)
        return Identity
    if width is None and height is None:
        _tell_no_unit(root, box, place, faults)
        return Identity
    if box is None:
        _tell_no_box(width, height, place, faults)
        return Identity
    across = width if width is not None else (height or 0.0) * box[2] / box[3]
    down = height if height is not None else across * box[3] / box[2]
    found = fit(box, (across, down), root.attrs.get("preserveAspectRatio", ""))
    if found.sides_differ:
        _tell_differing(found.scales, place, stretched=found.stretched, faults=faults)
        if found.stretched:  # circles would be ovals, and every hole a fault of its own
            return fit(box, (across, down), "").transform
    return found.transform


def _tell_no_unit(
    root: Element, box: tuple[float, ...] | None, place: Place, faults: Faults
) -> None:
    written = root.attrs.get("width")
    says = f'The width "{brief(written)}" says' if written else "No width says"
    _, _, across, down = box or (0.0, 0.0, 210.0, 297.0)
    faults.error(
        "no-unit",
        f"{says} nothing in mm, cm or in: the size of one unit is unknown.",
        mend=f'If one unit is 1 mm, write width="{across:g}mm" height="{down:g}mm" '
        f'viewBox="0 0 {across:g} {down:g}" at <svg>.',
        place=place,
    )


def _tell_no_box(width: float | None, height: float | None, place: Place, faults: Faults) -> None:
    across, down = width or height or 0.0, height or width or 0.0
    faults.error(
        "no-viewbox",
        f"There is no viewBox: by the SVG standard one unit is then {_PX_MM:.4f} mm.",
        mend=f'If one unit is 1 mm, add viewBox="0 0 {across:g} {down:g}" at <svg>; if it is '
        f'1/96 inch, viewBox="0 0 {across / _PX_MM:.2f} {down / _PX_MM:.2f}".',
        place=place,
    )


def _tell_differing(
    scales: tuple[float, float], place: Place, *, stretched: bool, faults: Faults
) -> None:
    across, down = scales
    tell = faults.error if stretched else faults.warning
    ends = (
        "and the page is stretched to fit"
        if stretched
        else f"and {min(scales):.4f} mm is taken for both"
    )
    tell(
        "uneven-scale",
        f"One unit is {across:.4f} mm across, but {down:.4f} mm down, {ends}.",
        mend="Make width : height the same as in viewBox.",
        place=place,
    )
