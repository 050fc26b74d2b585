"""Names a pattern takes from the shelf: unknown ones, and leather of unusual thickness."""

from collections.abc import Iterable, Iterator
from difflib import get_close_matches

from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.units import mm_to_ounces
from armorplan.pattern.joining import JointKind
from armorplan.pattern.parts import Material
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Leather, Shelf

THICKNESS_SLACK_MM = 0.05
_POSTED = frozenset({JointKind.RIVET, JointKind.SCREW})


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


def _unusual(material: Material, leather: Leather) -> Finding:
    least, most = leather.usual_mm
    thickness_mm = material.thickness_mm
    return Finding(
        code="unusual-thickness",
        severity=Severity.NOTE,
        text=(
            f"'{material.id}' is {thickness_mm:.1f} mm ({mm_to_ounces(thickness_mm):.1f} oz); "
            f"{least:.1f} to {most:.1f} mm is usual for: {leather.name}."
        ),
        remedy="Keep it if it is meant; otherwise mend thickness_mm or weight_oz.",
        about=(material.id,),
    )


def stock_findings(pattern: Pattern, shelf: Shelf) -> Iterator[Finding]:
    """Yield leathers, fasteners and treatments not on the shelf, and unusual thicknesses in mm."""
    for material in pattern.materials:
        leather = shelf.leather(material.leather)
        if leather is None:
            known = (entry.id for entry in shelf.leathers)
            yield _unknown("leather", material.leather, material.id, known)
            continue
        least, most = leather.usual_mm
        slack = THICKNESS_SLACK_MM
        if not least - slack <= material.thickness_mm <= most + slack:
            yield _unusual(material, leather)
    for joint in pattern.joints:
        if joint.kind in _POSTED and shelf.fastener(joint.fastener) is None:
            known = (entry.id for entry in shelf.fasteners)
            yield _unknown("fastener", joint.fastener, joint.id, known)
    for treatment in pattern.treatments:
        if shelf.treatment(treatment.use) is None:
            known = (entry.id for entry in shelf.treatments)
            yield _unknown("treatment", treatment.use, treatment.id, known)
