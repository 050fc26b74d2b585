"""Names a pattern takes from the shelf: unknown ones, and leather of unusual thickness."""

from collections.abc import Iterable, Iterator
from difflib import get_close_matches

from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.units import mm_to_ounces
from armorplan.pattern.joining import Applying, Joint, JointKind, Treatment
from armorplan.pattern.parts import Material
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Leather, Shelf, TreatmentEntry, TreatmentKind

THICKNESS_SLACK_MM = 0.05


def stock_findings(pattern: Pattern, shelf: Shelf) -> Iterator[Finding]:
    """Yield what is not on the shelf, unusual thicknesses in mm, and dips it has no figures for."""
    for material in pattern.materials:
        yield from _leather(material, shelf)
    for joint in pattern.joints:
        yield from _fastener(joint, shelf)
    for use in pattern.hardware:
        if shelf.hardware_entry(use.use) is None:
            yield _unknown("hardware", use.use, use.id, (e.id for e in shelf.hardware))
    for treatment in pattern.treatments:
        yield from _treatment(pattern, treatment, shelf)
    hardeners = {e.id for e in shelf.treatments if e.kind is TreatmentKind.HARDENER}
    for form in pattern.forms:
        if form.hardening is not None and form.hardening not in hardeners:
            yield _unknown("hardener", form.hardening, form.id, hardeners)


def _leather(material: Material, shelf: Shelf) -> Iterator[Finding]:
    leather = shelf.leather(material.leather)
    if leather is None:
        known = (entry.id for entry in shelf.leathers)
        yield _unknown("leather", material.leather, material.id, known)
        return
    usual_least, usual_most = leather.usual_mm
    least_mm, most_mm = _ends_mm(material)
    slack = THICKNESS_SLACK_MM
    if least_mm < usual_least - slack or most_mm > usual_most + slack:
        yield _unusual(material, leather)


def _ends_mm(material: Material) -> tuple[float, float]:
    most_mm = material.thickness_mm
    return (most_mm if material.least_mm is None else material.least_mm), most_mm


def _unusual(material: Material, leather: Leather) -> Finding:
    least, most = leather.usual_mm
    ends_mm = sorted(set(_ends_mm(material)))
    millimetres = " to ".join(f"{end:.1f}" for end in ends_mm)
    ounces = " to ".join(f"{mm_to_ounces(end):.1f}" for end in ends_mm)
    return Finding(
        code="unusual-thickness",
        severity=Severity.NOTE,
        text=(
            f"'{material.id}' is {millimetres} mm ({ounces} oz); "
            f"{least:.1f} to {most:.1f} mm is usual for: {leather.name}."
        ),
        remedy="Keep it if it is meant; otherwise mend its thickness, or name another leather.",
        about=(material.id,),
    )


def _fastener(joint: Joint, shelf: Shelf) -> Iterator[Finding]:
    """Yield a fastener, glue, thread or lace that is not on the shelf; only posts must be named."""
    if joint.kind in (JointKind.RIVET, JointKind.SCREW):
        what, known = "fastener", [e.id for e in shelf.fasteners]
    elif joint.kind is JointKind.GLUE:
        what, known = "glue", [e.id for e in shelf.treatments if e.kind is TreatmentKind.GLUE]
    else:
        kind = "thread" if joint.kind is JointKind.STITCH else "lace"
        what, known = kind, [e.id for e in shelf.supplies if e.kind == kind]
    if joint.fastener in known or not (joint.fastener or what == "fastener"):
        return
    if shelf.fastener(joint.fastener) is None:  # one of another kind is told with the stacks
        yield _unknown(what, joint.fastener, joint.id, known)


def _treatment(pattern: Pattern, treatment: Treatment, shelf: Shelf) -> Iterator[Finding]:
    entry = shelf.treatment(treatment.use)
    if entry is None:
        known = (e.id for e in shelf.treatments)
        yield _unknown("treatment", treatment.use, treatment.id, known)
    elif treatment.applying is Applying.DIP and not entry.dip_ml_per_dm2:
        yield _no_dip(pattern, treatment, entry)


def _no_dip(pattern: Pattern, treatment: Treatment, entry: TreatmentEntry) -> Finding:
    dipping = [option for option in pattern.options if option.in_force.applying is Applying.DIP]
    wipe = 'Write applying = "wipe"'
    if dipping:  # what the option says goes over what stands at the treatment
        chosen = " and ".join(f"'{option.id}'" for option in dipping)
        wipe = f"Choose otherwise in option {chosen}, which dips everything"
    return Finding(
        code="dip-without-figures",
        severity=Severity.NOTE,
        text=f"'{treatment.id}' is dipped, but the shelf says only how much {entry.name} takes "
        "wiped on: its litres cannot be reckoned.",
        remedy=f"{wipe}, or write dip_ml_per_dm2 under [{entry.id}] in your own treatments.toml.",
        about=(treatment.id,),
    )


def _unknown(what: str, name: str, user: str, known: Iterable[str]) -> Finding:
    names = sorted(known)
    nearest = get_close_matches(name, names, n=1)
    listed = ", ".join(names) or "nothing"
    return Finding(
        code=f"unknown-{what}",
        severity=Severity.ERROR,
        text=f"'{user}' names the {what} '{name}', which is not on the shelf.",
        remedy=f"Perhaps '{nearest[0]}'?" if nearest else f"The shelf holds: {listed}.",
        about=(user,),
    )
