"""All that the shapes, the holes and the shelf tell against a pattern before any leather is cut."""

from armorplan.geometry.alike.copies import copy_findings
from armorplan.geometry.backbone import lay_findings
from armorplan.geometry.gathering import measures
from armorplan.geometry.loose_parts import loose_part_findings
from armorplan.geometry.measures import Measure
from armorplan.geometry.scale import scale_finding
from armorplan.geometry.stock import stock_findings
from armorplan.geometry.straps.straps import strap_findings
from armorplan.kernel.findings import Finding
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

BY_SIZE = frozenset(
    {
        "bend-longer-than-part",
        "bend-outside-part",
        "reach-no-opening",
        "reach-not-sure",
        "reach-nothing-gets-there",
        "hole-covered",
        "hole-near-edge",
        "hole-off-row",
        "hole-wrong-size",
        "holes-coincide",
        "holes-too-close",
        "inner-leather-too-short",
        "lame-gap-opens",
        "lame-inside-touches",
        "lame-little-cover",
        "lame-radius-disagrees",
        "lames-do-not-nest",
        "lames-swapped",
        "pivot-off-axis",
        "pivot-spans-differ",
        "row-longer",
        "row-misfit",
        "row-other-way",
        "rows-shifted",
        "slot-off-its-post",
        "slot-too-short",
        "strap-closes-too-little",
        "strap-narrow",
        "strap-too-wide",
        "strap-too-wide-for-slot",
        "which-lies-outside",
    }
)
"""What follows from a drawing of the wrong size, and would be told of everything in it."""


def shape_findings(
    pattern: Pattern, shelf: Shelf, shapes: tuple[Measure, ...] | None = None
) -> tuple[Finding, ...]:
    """Return what is wrong with a pattern's rows, holes, stacks, straps and use of the shelf.

    Of a drawing whose scale is wrong that is told first, and nothing that follows from it.

    Args:
        pattern: with its options settled.
        shelf: the catalogues.
        shapes: its measures, where they are reckoned already.
    """
    told = measures(pattern, shelf) if shapes is None else shapes
    found = (
        *(finding for measure in told for finding in measure.findings),
        *lay_findings(pattern),
        *stock_findings(pattern, shelf),
        *strap_findings(pattern, shelf),
        *copy_findings(pattern, shelf.constants),
        *loose_part_findings(pattern),
    )
    # What two measures find alike, such as two movements of the same lames, is told once.
    once = dict.fromkeys(found)
    scale = scale_finding(pattern)
    if scale is None:
        return tuple(once)
    return (scale, *(each for each in once if each.code not in BY_SIZE))
