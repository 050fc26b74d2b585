"""The page of an SVG: how its numbers lie, and what one of them is by the page's own word."""

from dataclasses import dataclass
from math import isfinite

from fontTools.misc.transform import Identity, Transform

from armorplan.files.faults import Faults
from armorplan.files.loose.style_sheets import everything
from armorplan.files.loose.units import PX_MM
from armorplan.files.svg_tree import Element
from armorplan.files.transforms import NUMBER, ShapeFaultError, fit, physical_mm, view_box
from armorplan.kernel.findings import Place

_A4 = (210 / PX_MM, 297 / PX_MM)
_ACROSS = frozenset({"x", "cx", "x1", "x2", "width", "rx"})
_DOWN = frozenset({"y", "cy", "y1", "y2", "height", "ry"})
_LENGTHS = _ACROSS | _DOWN | {"r"}


@dataclass(frozen=True, slots=True, kw_only=True)
class SvgPage:
    """A page in the units of its numbers.

    Attributes:
        stretch: what the page does beside scaling evenly; nearly always nothing.
        mm_each: what one unit is, ``None`` where the page does not say.
        how: the words that say so.
        usual: what one unit is by the standard where the page does not say.
        size: width and height in units.
    """

    stretch: Transform
    mm_each: float | None
    how: str
    usual: tuple[float, ...]
    size: tuple[float, float]


def page_of(root: Element, place: Place, faults: Faults) -> SvgPage:
    """Return the page; what is odd about it is told."""
    wide, high = (physical_mm(root.attrs.get(key)) for key in ("width", "height"))
    try:
        box = view_box(root.attrs)
    except ShapeFaultError as fault:
        faults.warning(fault.code, fault.text, mend=fault.mend, place=place)
        box = None
    if box is None:
        return _boxless(root, (wide, high))
    across = wide if wide is not None else (high or 0.0) * box[2] / box[3]
    down = high if high is not None else across * box[3] / box[2]
    size = box[2], box[3]
    if not across or not isfinite(across + down):
        usual = (_px_each(root, box[2]), 1.0)
        return SvgPage(stretch=Identity, mm_each=None, how="", usual=usual, size=size)
    found = fit(box, (across, down), root.attrs.get("preserveAspectRatio", ""))
    mm_each = min(found.scales)
    stretch = Identity
    if found.stretched and found.sides_differ:
        faults.warning(
            "uneven-scale",
            f"One unit is {found.scales[0]:.4f} mm across, but {found.scales[1]:.4f} mm down, and "
            "the page is stretched to fit.",
            mend="Check a known length across and another one down.",
            place=place,
        )
        stretch = Identity.scale(found.scales[0] / mm_each, found.scales[1] / mm_each)
    how = f"The page says that it is {across:.6g} × {down:.6g} mm large"
    return SvgPage(stretch=stretch, mm_each=mm_each, how=how, usual=(), size=size)


def _boxless(root: Element, said: tuple[float | None, float | None]) -> SvgPage:
    """Return a page without a view box, whose unit is the CSS pixel by the standard."""
    plain = [NUMBER.match(root.attrs.get(key, "").strip()) for key in ("width", "height")]
    size = tuple(
        mm / PX_MM if mm is not None else float(number[0]) if number else otherwise
        for mm, number, otherwise in zip(said, plain, _A4, strict=True)
    )
    return SvgPage(
        stretch=Identity, mm_each=None, how="", usual=(PX_MM, 1.0), size=(size[0], size[1])
    )


def _px_each(root: Element, across: float) -> float:
    """Return what one unit is where the width is given in pixels."""
    found = NUMBER.match(root.attrs.get("width", "").strip())
    wide = float(found[0]) if found and "%" not in root.attrs["width"] else 0.0
    return wide / across * PX_MM if 0 < wide < float("inf") else PX_MM


def plain_lengths(root: Element, page: SvgPage) -> None:
    """Write lengths with a unit, and shares of the page, as plain numbers in every element.

    A unit inside a drawing is one of CSS, of 96 px to the inch, whatever the page is scaled to.
    """
    for element in everything(root):
        if element is root:
            continue
        for key in _LENGTHS & element.attrs.keys():
            plain = _plain(element.attrs[key].strip(), key, page)
            if plain is not None:
                element.attrs[key] = repr(plain)


def _plain(text: str, key: str, page: SvgPage) -> float | None:
    if text.endswith("%"):
        number = NUMBER.fullmatch(text[:-1].strip())
        across, down = page.size
        whole = across if key in _ACROSS else down if key in _DOWN else (across + down) / 2
        return float(number[0]) / 100 * whole if number else None
    if text[-1:].isalpha() and not text.endswith("px"):
        negative = text.startswith("-")
        mm = physical_mm(text.lstrip("+-"))
        return None if mm is None else (-mm if negative else mm) / PX_MM
    return None
