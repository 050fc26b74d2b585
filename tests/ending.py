"""A limit in seconds of the processor, so that what would never end fails its test instead."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType


@contextmanager
def ends_within(most_s: float, what: object) -> Iterator[None]:
    """Fail with the name of what is reckoned once it has taken so long; other work does not count."""

    def stop(_number: int, frame: FrameType | None) -> None:
        at = f"{frame.f_code.co_filename}:{frame.f_lineno}" if frame else "?"
        raise AssertionError(f"{what} does not end within {most_s} s; stopped at {at}")

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, most_s)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)
