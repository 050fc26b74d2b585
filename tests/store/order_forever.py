"""Agree and promise anew for ever, telling each once it is stored."""

import sys
from dataclasses import replace
from itertools import count
from pathlib import Path

from clocks import FakeClock
from store.shelf_of_builds import ELBOW

from armorplan.ledger.build_orders import BuildOrder
from armorplan.store.workshop_file import WorkshopFile


def main(path: Path) -> None:
    workshop = WorkshopFile.open(path, FakeClock())
    order = BuildOrder(build=ELBOW.id)
    for weight in count(1):
        workshop.orders.keep(replace(order, weight=weight))
        number = workshop.orders.promise("{" + "x" * 20_000 + "}")
        sys.stdout.write(f"{weight} {number}\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
