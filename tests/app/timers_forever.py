"""Press about timers for ever, telling each press before it is made and once it is recorded.

Forks once for each kill, so that all that takes time to load is loaded once. A line is read after
each fork; the process that presses is then told by its number and may be killed at any moment.
"""

import os
import sys
from itertools import count
from pathlib import Path

from app.timer_scene import PLATE, Workshop, derived_of
from shifted_clock import ShiftedClock

from armorplan.steps.model import StepKind


def tell(*words: object) -> None:
    sys.stdout.write(" ".join(map(str, words)) + "\n")
    sys.stdout.flush()


def press_forever(path: Path, name: str) -> None:
    clock = ShiftedClock()
    window = Workshop(path, clock=clock).window(PLATE)
    timing = window.timing
    for row in timing.rows:
        if not row.free and row.bells:
            tell("will answer", row.id)
            timing.hush(row.id)
            tell("did answer", row.id)
    measure = window.one(StepKind.MEASURE)
    for number in count():
        title = f"{name}-{number}"
        tell("will set", title)
        timing.set_timer(600, title)
        tell("did set", title, clock.now().isoformat())
        row = next(row for row in timing.rows if row.title == title)
        if number % 3 == 2:
            tell("will stop", title)
            timing.stop_timer(row.id)
            tell("did stop", title)
        act = window.session.pause if number % 2 else window.session.start
        tell("will press", number % 2)
        act((measure,))
        tell("did press", number % 2)


def main(path: Path) -> None:
    derived_of(PLATE)
    for number, _ in enumerate(sys.stdin):
        child = os.fork()
        if child == 0:
            try:
                press_forever(path, f"run{number}")
            finally:
                os._exit(1)
        tell("pid", child)
        os.waitpid(child, 0)
        tell("gone", child)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
