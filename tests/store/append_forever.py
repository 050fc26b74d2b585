"""Append trays of three entries for ever, telling each one's last number once it is stored."""

import sys
from itertools import count
from pathlib import Path

from clocks import FakeClock
from store.shelf_of_builds import entry

from armorplan.store.workshop_file import WorkshopFile


def main(path: Path, name: str) -> None:
    workshop = WorkshopFile.open(path, FakeClock())
    for press in count():
        batch = f"{name}-{press}"
        tray = tuple(entry(3 * press + i, batch=batch) for i in range(3))
        sys.stdout.write(f"{batch} {workshop.append(tray)[-1].seq}\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2])
