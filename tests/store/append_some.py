"""Open a workshop once a line comes in, add the build where it is missing, append entries."""

import sys
from contextlib import suppress
from pathlib import Path

from clocks import FakeClock
from store.shelf_of_builds import ELBOW, entry

from armorplan.kernel.errors import WorkshopError
from armorplan.store.workshop_file import WorkshopFile


def main(path: Path, name: str, presses: int) -> None:
    sys.stdout.write("ready\n")
    sys.stdout.flush()
    sys.stdin.readline()
    workshop = WorkshopFile.open(path, FakeClock())
    with suppress(WorkshopError):
        workshop.add_build(ELBOW)
    for press in range(presses):
        workshop.append((entry(press, batch=f"{name}-{press}"),) * 2)
    workshop.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]))
