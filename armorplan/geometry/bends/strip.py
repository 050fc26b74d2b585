"""A test strip: where a leather keeps its length in a bend, from a strip bent round a rod.

``K = (BA / angle - R) / t`` with ``BA`` what the straight legs leave of the flat length. A K outside
0 to 1 would lie outside the leather: something was measured wrong.
"""

from dataclasses import dataclass

from armorplan.geometry.bends.allowance import (
    HALF_TURN_DEG,
    WHOLE_TURN_DEG,
    neutral_of,
    setback_mm,
)
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity

_SOURCE = "sheet-metal texts after Machinery's Handbook, turned round for K"
_MEASURED = "measured on the strip"
_DIGITS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A strip of leather as it was measured, flat and bent.

    Attributes:
        flat_mm: its length before it was bent.
        legs_mm: its two legs afterwards: straight, from the end to where the bend begins, or with
            ``outside`` from the end to where the outer faces of the legs would meet.
        radius_mm: of the rod it was bent round.
        angle_deg: how far it stays bent.
        thickness_mm: of the leather.
    """

    flat_mm: float
    legs_mm: tuple[float, float]
    radius_mm: float
    angle_deg: float
    thickness_mm: float
    outside: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class StripResult:
    """What a strip tells.

    Attributes:
        allowance_mm: how much of the flat length is in the bend; ``None``: the numbers cannot be.
        neutral: K, rounded to what a strip can tell; ``None`` where it is no measure.
        figures: the reckoning.
        finding: why the strip is no measure; ``None`` where it is a good one.
    """

    allowance_mm: float | None
    neutral: float | None
    figures: tuple[Figure, ...] = ()
    finding: Finding | None = None


def read_strip(strip: Strip) -> StripResult:
    """Return what a strip tells, or why it tells nothing."""
    fault = _fault(strip)
    setback = setback_mm(strip.angle_deg, strip.radius_mm, strip.thickness_mm)
    past_mm = (setback or 0.0) if strip.outside else 0.0
    straight_mm = [leg - past_mm for leg in strip.legs_mm]
    bend_mm = strip.flat_mm - sum(straight_mm)
    if fault is None and min(straight_mm) < 0:
        fault = (
            f"a leg of {min(strip.legs_mm):g} mm ends within the bend",
            "Use a longer strip, or measure the straight legs.",
        )
    if fault is None and bend_mm <= 0:
        fault = (
            (
                f"legs of {strip.legs_mm[0]:g} and {strip.legs_mm[1]:g} mm leave nothing of "
                f"{strip.flat_mm:g} mm for the bend"
            ),
            (
                "Measure each leg from its end to where the bend begins, or say that they are measured to "
                "the outer corner."
            ),
        )
    if fault is not None:
        return StripResult(allowance_mm=None, neutral=None, finding=_finding(*fault))
    return _reckoned(strip, bend_mm, straight_mm)


def _reckoned(strip: Strip, bend_mm: float, straight_mm: list[float]) -> StripResult:
    neutral = neutral_of(
        bend_mm,
        angle_deg=strip.angle_deg,
        radius_mm=strip.radius_mm,
        thickness_mm=strip.thickness_mm,
    )
    if neutral is None:  # _fault has told it
        return StripResult(allowance_mm=bend_mm, neutral=None)
    figures = _figures(strip, bend_mm, straight_mm, neutral)
    if not 0 <= neutral <= 1:
        side = "inside" if neutral < 0 else "outside"
        told = _finding(
            f"K comes out at {neutral:.2f}: the bend would keep its length {side} the leather, "
            "whose K lies between 0 and 1",
            f"A bend of {bend_mm:.1f} mm does not go with these numbers: measure the legs and the "
            "radius again, and the angle as it stays once the strip is dry.",
            code="strip-off",
        )
        return StripResult(allowance_mm=bend_mm, neutral=None, figures=figures, finding=told)
    return StripResult(allowance_mm=bend_mm, neutral=round(neutral, _DIGITS), figures=figures)


def _figures(
    strip: Strip, bend_mm: float, straight_mm: list[float], neutral: float
) -> tuple[Figure, ...]:
    one, other = straight_mm
    return (
        Figure(
            name="in the bend",
            value=bend_mm,
            unit="mm",
            formula=f"BA = {strip.flat_mm:g} - {one:.4g} - {other:.4g} = {bend_mm:.2f} mm",
            source=_MEASURED,
        ),
        Figure(
            name="K, from the inside",
            value=neutral,
            unit="t",
            formula=f"K = (BA / (π · {strip.angle_deg:g} / 180) - R) / t = ({bend_mm:.2f} / "
            f"(π · {strip.angle_deg:g} / 180) - {strip.radius_mm:g}) / {strip.thickness_mm:g} = "
            f"{neutral:.3f}",
            source=_SOURCE,
        ),
    )


def _fault(strip: Strip) -> tuple[str, str] | None:
    """Return what is wrong with a number by itself, and what would be fine."""
    lengths = {
        "flat length": strip.flat_mm,
        "first leg": strip.legs_mm[0],
        "second leg": strip.legs_mm[1],
        "thickness": strip.thickness_mm,
    }
    for name, value in lengths.items():
        if value <= 0:
            return f"its {name} is {value:g} mm", "Write a length above 0 mm."
    if strip.radius_mm < 0:
        return f"its radius is {strip.radius_mm:g} mm", "Write the inner radius, 0 mm or more."
    most = HALF_TURN_DEG if strip.outside else WHOLE_TURN_DEG
    if not 0 < strip.angle_deg < most:
        return (
            f"its angle is {strip.angle_deg:g}°",
            (
                f"Write an angle above 0° and below {most:g}°"
                f"{', since legs that turn back have no outer corner' * strip.outside}."
            ),
        )
    return None


def _finding(what: str, remedy: str, *, code: str = "strip-impossible") -> Finding:
    return Finding(
        code=code, severity=Severity.ERROR, text=f"The strip is no measure: {what}.", remedy=remedy
    )
