"""What is typed of a drying on the command line."""

import argparse
from collections.abc import Callable
from pathlib import Path

from armorplan.files.limits import THICKNESS_MM
from armorplan.files.typed_numbers import typed_number
from armorplan.workshop.air import LARGEST_M3

WANTED = (
    "Write it like 18,55 (°C, per cent), 18,55,0.3 (with the air's speed in m/s), "
    "'day=18,55 night=10,80', 'night=22:00-07:00@10,80', or name a logger's CSV file."
)
USUAL_AREA_DM2 = 10.0
"""About a forearm's plates: what the solvent of a coat is told for where nobody says."""
_MOST_DM2 = 10_000
_EXAMPLES = """\
examples:
  armorplan dry alcohol_dye
  armorplan dry casing_water --thickness 2.5 --climate 16,65
  armorplan dry acrylic_finish --dipped --climate 'day=64F,55 night=10,80' --from 2026-11-30T17:00
  armorplan dry alcohol_dye --climate 'day=18,55,0.5 night=22:00-07:00@10,80' --room 40 --area 25
  armorplan dry water_dye --climate logger.csv --png water_dye.png
  armorplan dry water_dye --climate=-2,80          (below zero it takes the =)
"""


def add_dry(command: argparse.ArgumentParser) -> None:
    """Give the command its options."""
    command.formatter_class = argparse.RawDescriptionHelpFormatter
    command.epilog = _EXAMPLES
    command.add_argument(
        "treatment",
        metavar="TREATMENT",
        help="what dries, by its id in treatments.toml or its name",
    )
    leather = command.add_mutually_exclusive_group()
    leather.add_argument(
        "--material", metavar="ID", help="the leather, by its id in leathers.toml"
    )
    leather.add_argument(
        "--thickness",
        type=_above_nothing("mm", THICKNESS_MM, 3.5),
        metavar="MM",
        help="of the leather",
    )
    command.add_argument(
        "--faces",
        type=int,
        choices=(1, 2),
        help="how many faces the air gets to: 1 where it lies on a board or its form",
    )
    command.add_argument("--dipped", action="store_true", help="it lay in the bath, not wiped on")
    command.add_argument(
        "--climate", metavar="AIR", help=f"instead of the shop's air. {WANTED.replace('%', '%%')}"
    )
    command.add_argument(
        "--from", dest="start", metavar="INSTANT", help="wet from then, such as 2026-11-30T17:00"
    )
    command.add_argument(
        "--room",
        type=_above_nothing("m³", LARGEST_M3, 40),
        metavar="M3",
        help="volume of the room, for what evaporates into it",
    )
    command.add_argument(
        "--area",
        type=_above_nothing("dm²", _MOST_DM2, 10),
        default=USUAL_AREA_DM2,
        metavar="DM2",
        help=f"leather coated at a time, one face of it ({USUAL_AREA_DM2:g} dm²)",
    )
    command.add_argument("--shop", type=Path, metavar="FILE", help="shop file: people, hours, air")
    command.add_argument(
        "--workshop",
        type=Path,
        metavar="FILE",
        help="workshop file: the air kept in it, and what was learned there (usual place: your data folder)",
    )
    command.add_argument("--json", action="store_true", help="answer as JSON")
    command.add_argument("--png", type=Path, metavar="FILE", help="draw it to a picture")
    command.add_argument("--dark", action="store_true", help="draw it light on dark")


def _above_nothing(unit: str, most: float, example: float) -> Callable[[str], float]:
    """Return what reads a number above nothing and up to a stated most."""

    def number(given: str) -> float:
        value = typed_number(given)
        if value is None or not 0 < value <= most:
            message = (
                f"'{given}' is no number above 0 and up to {most:,g} {unit}, such as {example:g}"
            )
            raise argparse.ArgumentTypeError(message)
        return value

    return number
