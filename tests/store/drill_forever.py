"""Keep results and words on skills for ever, telling each pair once it is stored."""

import sys
from dataclasses import replace
from itertools import count
from pathlib import Path

from clocks import FakeClock
from store.shelf_of_builds import RESULT, SIGNED

from armorplan.store.workshop_file import WorkshopFile


def main(path: Path) -> None:
    workshop = WorkshopFile.open(path, FakeClock())
    for seed in count(1):
        number = workshop.drills.keep(replace(RESULT, asked=replace(RESULT.asked, seed=seed)))
        workshop.skills.keep(SIGNED, replace(SIGNED, note=str(seed)))
        sys.stdout.write(f"{number} {seed}\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
