"""All that the shapes, the holes and the shelf tell against a pattern before any leather is cut."""

from armorplan.geometry.bending import bending_findings
from armorplan.geometry.holes import hole_findings
from armorplan.geometry.loose_rows import loose_row_findings
from armorplan.geometry.overlaps import overlap_findings
from armorplan.geometry.rows import row_findings
from armorplan.geometry.stacks import stack_findings
from armorplan.geometry.stock import stock_findings
from armorplan.geometry.straps import strap_findings
from armorplan.kernel.findings import Finding
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf


def shape_findings(pattern: Pattern, shelf: Shelf) -> tuple[Finding, ...]:
    """Return what is wrong with a pattern's rows, holes, stacks, straps and use of the shelf."""
    return (
        *row_findings(pattern),
        *loose_row_findings(pattern),
        *hole_findings(pattern),
        *bending_findings(pattern),
        *stack_findings(pattern, shelf),
        *stock_findings(pattern, shelf),
        *strap_findings(pattern, shelf),
        *overlap_findings(pattern, shelf),
    )
