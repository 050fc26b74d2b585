"""All that is told of a shop before its builds are planned."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from armorplan.kernel.findings import Finding, Place
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.long_parts import long_part_findings
from armorplan.schedule.place_checks import place_findings
from armorplan.schedule.problem import Problem
from armorplan.schedule.shop_checks import shop_findings
from armorplan.schedule.wearer_checks import wearer_findings

_NOWHERE: Mapping[str, Place] = MappingProxyType({})


def findings_of(
    builds: Sequence[BuildInHand], problem: Problem, *, places: Mapping[str, Place] = _NOWHERE
) -> tuple[Finding, ...]:
    """Return what keeps builds from being planned, then what lies too full.

    Args:
        builds: those in hand, of one shop.
        problem: their joined problem.
        places: where people, baths and builds are written (``files.shop_file.ShopFile.places``).
    """
    return (
        *shop_findings(builds, problem, places=places),
        *wearer_findings(builds, places=places),
        *place_findings(builds, places=places),
        *long_part_findings(builds, places=places),
    )
