"""Where a drawing's numbers lie in millimetres: units, view boxes and transform attributes."""

import re
from dataclasses import dataclass
from math import isclose, isfinite, radians

from fontTools.misc.transform import Identity, Transform

from armorplan.files.faults import brief
from armorplan.kernel.units import MM_PER_INCH

NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_BETWEEN = re.compile(r"[\s,]+")
_LENGTH = re.compile(rf"\s*({NUMBER.pattern})\s*([a-zA-Z%]*)\s*")
_MM_PER = {
    "mm": 1.0,
    "cm": 10.0,
    "q": 0.25,
    "in": MM_PER_INCH,
    "pt": MM_PER_INCH / 72,
    "pc": MM_PER_INCH / 6,
}
_CALL = re.compile(r"[\s,]*([A-Za-z]+)\s*\(([^()]*)\)[\s,]*")
_ARGUMENTS = {
    "matrix": {6},
    "translate": {1, 2},
    "scale": {1, 2},
    "rotate": {1, 3},
    "skewX": {1},
    "skewY": {1},
}
_SAME_SCALE = 1e-3
"""x and y scales that differ by less are one: page sizes are often rounded to 0.01 mm."""


class ShapeFaultError(Exception):
    """What is wrong with one element, and how to mend it; never leaves this package."""

    def __init__(self, code: str, text: str, mend: str) -> None:
        self.code = code
        self.text = text
        self.mend = mend
        super().__init__(text)


def plain_length(attrs: dict[str, str], key: str) -> float:
    """Return a length in user units, 0 where it is not written.

    Raises:
        ShapeFaultError: not a finite number, or one with a unit: inside a drawing with a view box
            a unit means something else than it says.
    """
    text = attrs.get(key)
    if text is None:
        return 0.0
    match = _LENGTH.fullmatch(text)
    if match is None:
        raise not_a_number(f'{key}="{brief(text)}"')
    if match.group(2) not in {"", "px"}:
        raise ShapeFaultError(
            "unit-inside",
            f'{key}="{brief(text)}" carries a unit inside the drawing.',
            f'Write it in user units, {key}="{match.group(1)}" if one unit is 1 mm.',
        )
    return _finite(match.group(1), key)


def numbers(text: str, what: str) -> tuple[float, ...]:
    """Return the numbers of a list such as ``points``.

    Raises:
        ShapeFaultError: something else than finite numbers stands in it.
    """
    rest = _BETWEEN.sub("", NUMBER.sub("", text))
    if rest:
        raise not_a_number(f'"{brief(rest)}" in {what}')
    return tuple(_finite(token, what) for token in NUMBER.findall(text))


def not_a_number(what: str) -> ShapeFaultError:
    """Return the fault of a number that cannot be read, or is infinite."""
    return ShapeFaultError(
        "not-a-number", f"{what} is not a finite number.", "Write a plain number like 12.5."
    )


def _finite(token: str, what: str) -> float:
    value = float(token)
    if not isfinite(value):
        raise not_a_number(f"{brief(token)} in {what}")
    return value


def physical_mm(text: str | None) -> float | None:
    """Return a length with a unit in mm; ``None`` for px, per cent, plain or unreadable ones."""
    match = _LENGTH.fullmatch(text or "")
    factor = _MM_PER.get(match.group(2).lower()) if match else None
    length = float(match.group(1)) * factor if match and factor else 0.0
    return length if 0 < length < float("inf") else None


def read_transform(text: str | None) -> Transform:
    """Return the transform that an attribute describes.

    Raises:
        ShapeFaultError: it is not a sequence of the SVG transform functions.
    """
    total = Identity
    at = 0
    text = (text or "").strip()
    while at < len(text):
        match = _CALL.match(text, at)
        if match is None:
            raise _bad_transform(text[at:])
        total = total.transform(_one(match.group(1), match.group(2)))
        at = match.end()
    return total


def _bad_transform(text: str) -> ShapeFaultError:
    return ShapeFaultError(
        "bad-transform",
        f'The transform "{brief(text)}" cannot be read.',
        "Write it like translate(10 20) rotate(30), with plain numbers.",
    )


def _one(name: str, arguments: str) -> Transform:
    values = numbers(arguments, "transform")
    if len(values) not in _ARGUMENTS.get(name, set()):
        raise _bad_transform(f"{name}({arguments})")
    first = values[0]
    second = values[1] if len(values) > 1 else None
    if name == "matrix":
        return Transform(*values)
    if name == "translate":
        return Identity.translate(first, second or 0.0)
    if name == "scale":
        return Identity.scale(first, first if second is None else second)
    if name == "rotate":
        x, y = values[1:] or (0.0, 0.0)
        return Identity.translate(x, y).rotate(radians(first)).translate(-x, -y)
    angle = radians(first)
    return Identity.skew(angle, 0) if name == "skewX" else Identity.skew(0, angle)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """How a view box fits its page: the transform, and whether x and y are scaled apart."""

    transform: Transform
    scales: tuple[float, float]
    stretched: bool

    @property
    def sides_differ(self) -> bool:
        """Tell whether width and height ask for different scales."""
        return not isclose(*self.scales, rel_tol=_SAME_SCALE)


def view_box(attrs: dict[str, str]) -> tuple[float, float, float, float] | None:
    """Return the view box, or ``None`` where none is written.

    Raises:
        ShapeFaultError: it is not four numbers with a width and height above 0.
    """
    text = attrs.get("viewBox")
    if text is None:
        return None
    match numbers(text, "viewBox"):
        case (x, y, width, height) if width > 0 and height > 0:
            return (x, y, width, height)
    raise ShapeFaultError(
        "bad-viewbox",
        f'viewBox="{brief(text)}" is not four numbers with a width and height above 0.',
        'Write it like viewBox="0 0 210 297".',
    )


def fit(box: tuple[float, float, float, float], page: tuple[float, float], how: str) -> Fit:
    """Fit a view box into a page as ``preserveAspectRatio`` says (SVG 1.1, section 7.8)."""
    x, y, width, height = box
    across, down = page[0] / width, page[1] / height
    align, _, rule = how.strip().partition(" ")
    if align == "none":
        moved = Identity.scale(across, down).translate(-x, -y)
        return Fit(transform=moved, scales=(across, down), stretched=True)
    scale = max(across, down) if rule.strip() == "slice" else min(across, down)
    shares = {"Min": 0.0, "Max": 1.0}
    left = (page[0] - scale * width) * shares.get(align[1:4], 0.5)
    top = (page[1] - scale * height) * shares.get(align[5:8], 0.5)
    moved = Identity.translate(left, top).scale(scale, scale).translate(-x, -y)
    return Fit(transform=moved, scales=(across, down), stretched=False)
