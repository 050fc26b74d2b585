"""What is told of the shop in which builds are planned: read along with each new problem."""

from collections.abc import Mapping, Sequence
from functools import lru_cache
from pathlib import Path

from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.findings import Finding, Place
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.problem import Problem
from armorplan.schedule.shop_findings import findings_of


def told_of_shop(
    builds: Sequence[BuildInHand], problem: Problem, source: str
) -> tuple[Finding, ...]:
    """Return what in a shop keeps its builds from being planned, or will surprise.

    Args:
        builds: those in hand.
        problem: their joined problem.
        source: the shop file that ordered them; empty where none did.
    """
    return findings_of(builds, problem, places=places_in(source))


def places_in(source: str) -> Mapping[str, Place]:
    """Return where people and builds are written; nothing where the file cannot be read now."""
    try:
        return _read_places(source, Path(source).stat().st_mtime_ns) if source else {}
    except (OSError, ArmorplanError):
        return {}


@lru_cache(maxsize=4)
def _read_places(source: str, _written_ns: int) -> Mapping[str, Place]:
    return read_shop_file(Path(source)).places
