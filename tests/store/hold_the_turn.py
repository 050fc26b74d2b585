"""Take the turn of a workshop, say so, append what comes in as numbers, and give way when asked."""

import sys
from pathlib import Path

from clocks import FakeClock
from store.shelf_of_builds import entry

from armorplan.store.gate import ReadsAlongError
from armorplan.store.one_writer import OneWriter
from armorplan.store.workshop_file import WorkshopFile


def main(path: Path) -> None:
    turn = OneWriter(path, FakeClock())
    workshop = WorkshopFile.open(path, FakeClock(), turn)
    answer = "writes" if turn.begin() else "reads"
    while True:
        sys.stdout.write(f"{answer}\n")
        sys.stdout.flush()
        asked = sys.stdin.readline().strip()
        if asked == "look":
            answer = turn.look().name
        else:
            try:
                answer = str(workshop.append((entry(int(asked)),))[0].seq)
            except ReadsAlongError:
                answer = "refused"


if __name__ == "__main__":
    main(Path(sys.argv[1]))
