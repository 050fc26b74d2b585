"""Long work asks now and then whether it is still wanted."""

from collections.abc import Callable

from armorplan.kernel.errors import StoppedError

ShouldStop = Callable[[], bool]


def never() -> bool:
    """Say that nobody asks for an end."""
    return False


def go_on(should_stop: ShouldStop) -> None:
    """Do nothing, unless the work is no longer wanted.

    Raises:
        StoppedError: it is not.
    """
    if should_stop():
        raise StoppedError
