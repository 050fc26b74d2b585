"""How long something takes, in seconds: by the wall, by the processor, the least of some rounds."""

from collections.abc import Callable
from time import perf_counter, process_time


def seconds(work: Callable[..., object], *given: object) -> float:
    """Return the wall's seconds of one round."""
    started = perf_counter()
    work(*given)
    return perf_counter() - started


def busy_s(work: Callable[[], object]) -> float:
    """Return the processor's seconds of one round: what else the machine does leaves them be."""
    started = process_time()
    work()
    return process_time() - started


def best_s(work: Callable[[], object], rounds: int = 20) -> float:
    """Return the wall's least seconds of some rounds."""
    return min(seconds(work) for _ in range(rounds))
