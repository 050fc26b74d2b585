"""What is said of one part in a bend: how far it stretches, what it takes, how large it becomes."""

from collections.abc import Iterator, Sequence

from armorplan.geometry.bends.allowance import HALF_TURN_DEG, outer_strain_pct
from armorplan.geometry.bends.formed import Bent
from armorplan.geometry.bends.kinds import BENT_KINDS, DAMP_ROUTES
from armorplan.geometry.bends.numbers import tenths
from armorplan.geometry.sources import CIRCLE, MEASURED
from armorplan.geometry.widths import LIMP
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Form, FormKind
from armorplan.pattern.parts import Part
from armorplan.workshop.constants import Constant, Constants

BEAM = "beam theory, the neutral layer in the middle"
ALLOWANCE = "sheet-metal texts after Machinery's Handbook"


def bent_mm(part: Part) -> float:
    """Return the thickness that is bent: a skived part is grooved to half along its fold."""
    return part.thickness_mm / (2 if part.skived else 1)


def least_radius(form: Form, constants: Constants) -> Constant:
    """Return the least inner radius by the route of a form, in thicknesses."""
    return constants.damp_radius if form.route in DAMP_ROUTES else constants.dry_radius


def part_findings(form: Form, part: Part, bent: Bent, constants: Constants) -> Iterator[Finding]:
    """Yield a bend tighter than leather likes, and one that takes more than the part has."""
    tight = _too_tight(form, part, constants)
    if tight is not None:
        yield tight
    if bent.is_longer and bent.flat_mm and bent.allowance_mm and form.kind in BENT_KINDS:
        yield Finding(
            code="bend-longer-than-part",
            severity=Severity.WARNING,
            text=f"'{form.id}' takes {bent.allowance_mm:.0f} mm of {part.name} to bend it by "
            f"{bent.angle_deg:.4g}° to {tenths(form.radius_mm or 0.0)} mm, but across the axis it is "
            f"{bent.flat_mm[0]:.0f} mm.",
            remedy="Make the part longer, the radius smaller, or the angle less.",
            about=(form.id, part.id),
        )


def _too_tight(form: Form, part: Part, constants: Constants) -> Finding | None:
    """Return a bend below the usual radius.

    Straps are supple, and folded tight as a matter of course: they are left out.
    """
    if form.radius_mm is None or (form.kind is FormKind.FOLD and part.kind in LIMP):
        return None
    damp = form.route in DAMP_ROUTES
    thickness_mm = bent_mm(part)
    least_mm = thickness_mm * least_radius(form, constants).value
    if form.radius_mm >= least_mm:
        return None
    return Finding(
        code="bend-too-tight",
        severity=Severity.NOTE,
        text=f"'{form.id}' bends {part.name}, {thickness_mm:.1f} mm thick"
        f"{' where skived' * part.skived}, {'damp' if damp else 'dry'} to a radius of "
        f"{tenths(form.radius_mm)} mm; {least_mm:.1f} mm is the least usual. The outside stretches by "
        f"{outer_strain_pct(form.radius_mm, thickness_mm):.0f} %.",
        remedy="Skive or groove it along the fold to half its thickness, or use a larger radius"
        f"{'.' if damp else ', or shape it damp.'}",
        about=(form.id, part.id),
    )


def part_verdict(form: Form, part: Part, bent: Bent, told: Sequence[Finding]) -> str:
    """Say in a few words how a part takes its bend."""
    codes = {finding.code for finding in told}
    if "bend-outside-part" in codes:
        return "its axis lies beside it"
    if "bend-longer-than-part" in codes and bent.allowance_mm and bent.flat_mm:
        return f"the bend is {bent.allowance_mm - bent.flat_mm[0]:.0f} mm longer than the part"
    if form.radius_mm is None:
        return "no radius said"
    pct = outer_strain_pct(form.radius_mm, bent_mm(part))
    return f"{'too tight: ' * ('bend-too-tight' in codes)}the outside stretches by {pct:.0f} %"


def part_text(form: Form, part: Part, bent: Bent, told: Sequence[Finding]) -> Iterator[str]:
    """Say in sentences what the bend takes and how large the part becomes."""
    for finding in told:
        yield f"{finding.text} {finding.remedy}"
    if form.radius_mm is None:
        yield f"How tight '{form.id}' is, the pattern does not say: write radius_mm."
    elif not told:
        pct = outer_strain_pct(form.radius_mm, bent_mm(part))
        yield f"At {tenths(form.radius_mm)} mm the outside of {part.name} stretches by {pct:.0f} %."
    if form.kind not in BENT_KINDS or bent.allowance_mm is None:
        return
    yield f"Its bend takes {bent.allowance_mm:.1f} mm of the flat part."
    if bent.flat_mm and bent.legs_mm:
        yield (
            f"Flat it is {bent.flat_mm[0]:.0f} mm across the axis and {bent.flat_mm[1]:.0f} mm "
            f"along it, and {bent.legs_mm[0]:.0f} and {bent.legs_mm[1]:.0f} mm stay straight."
        )
    else:
        yield "No axis is drawn over it, so that its size once bent is not known."
    if bent.formed_mm:
        wide, deep, high = bent.formed_mm
        yield f"Bent it is {wide:.0f} mm wide, {deep:.0f} mm deep and {high:.0f} mm high."


def part_figures(
    form: Form, part: Part, bent: Bent, neutral: Constant, constants: Constants
) -> Iterator[Figure]:
    """Yield the numbers of a part's bend with the way each was come by."""
    radius_mm = form.radius_mm
    if radius_mm is None:
        return
    thick_mm, limit = bent_mm(part), least_radius(form, constants)
    pct = outer_strain_pct(radius_mm, thick_mm)
    yield Figure(
        name="the outside stretches by",
        value=pct,
        unit="%",
        formula=f"(t / 2) / (R + t / 2) = {thick_mm / 2:.2f} / ({tenths(radius_mm)} + {thick_mm / 2:.2f}) "
        f"= {pct:.1f} %",
        source=BEAM,
    )
    yield Figure(
        name=limit.name,
        value=limit.value * thick_mm,
        unit="mm",
        formula=f"{limit.value:g} · t = {limit.value:g} · {thick_mm:.2f} = "
        f"{limit.value * thick_mm:.1f} mm",
        source=limit.source,
    )
    if bent.allowance_mm is not None and form.kind in BENT_KINDS:
        yield from _sizes(part, bent, neutral)


def _sizes(part: Part, bent: Bent, neutral: Constant) -> Iterator[Figure]:
    taken_mm, radius_mm = bent.allowance_mm or 0.0, bent.radius_mm or 0.0
    yield Figure(
        name=f"K, {neutral.name}, from the inside",
        value=neutral.value,
        unit="t",
        formula="a number of the bench: constants.toml, or the leather's own neutral",
        source=neutral.source,
    )
    yield Figure(
        name="the bend takes",
        value=taken_mm,
        unit="mm",
        formula=f"BA = angle · (R + K · t) = π · {bent.angle_deg or 0.0:.4g} / 180 · ({tenths(radius_mm)} + "
        f"{neutral.value:g} · {part.thickness_mm:.2f}) = {taken_mm:.1f} mm",
        source=ALLOWANCE,
    )
    if bent.flat_mm:
        for name, value in zip(("across the axis", "along the axis"), bent.flat_mm, strict=True):
            yield Figure(
                name=f"flat, {name}", value=value, unit="mm", formula=MEASURED, source=MEASURED
            )
    for name, edge_mm, leg_mm in zip(
        ("first", "second"), bent.edges_mm or (), bent.legs_mm or (), strict=False
    ):
        yield Figure(
            name=f"{name} leg stays straight",
            value=leg_mm,
            unit="mm",
            formula=f"edge to axis, less BA / 2 = {edge_mm:.1f} - {taken_mm / 2:.1f} = {leg_mm:.1f} mm"
            if leg_mm
            else f"edge to axis {edge_mm:.1f} mm, BA / 2 {taken_mm / 2:.1f} mm: all of it is bent",
            source=MEASURED,
        )
    if bent.formed_mm:
        yield from _formed(part, bent)


def _formed(part: Part, bent: Bent) -> Iterator[Figure]:
    """Yield the size of a bent part; up to half a turn its width and depth have a closed form."""
    wide, deep, high = bent.formed_mm or (0.0, 0.0, 0.0)
    radius_mm, thick_mm, angle_deg = (
        bent.radius_mm or 0.0,
        part.thickness_mm,
        bent.angle_deg or 0.0,
    )
    legs = bent.legs_mm or (0.0, 0.0)
    formulas = ("the section of legs and arc, the middle of the bend on top",) * 2
    if angle_deg <= HALF_TURN_DEG:
        half = f"{angle_deg / 2:.4g}°"
        formulas = (
            (
                f"2 (R + t) sin(angle / 2) + legs · cos(angle / 2) = 2 ({tenths(radius_mm)} + {thick_mm:.2f}) "
                f"sin {half} + {sum(legs):.1f} cos {half} = {wide:.1f} mm"
            ),
            (
                f"R + t - R cos(angle / 2) + longer leg · sin(angle / 2) = {tenths(radius_mm)} + {thick_mm:.2f} - "
                f"{tenths(radius_mm)} cos {half} + {max(legs):.1f} sin {half} = {deep:.1f} mm"
            ),
        )
    told = zip(
        ("wide", "deep", "high"), (wide, deep, high), (*formulas, "its length along the axis"),
        strict=True,
    )  # fmt: skip
    for name, value, formula in told:
        yield Figure(name=f"bent, {name}", value=value, unit="mm", formula=formula, source=CIRCLE)
