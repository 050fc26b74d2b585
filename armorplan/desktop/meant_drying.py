"""Which drying a look is about, where the maker only says that it is dry, or still damp."""

from collections.abc import Callable, Iterable

from armorplan.app.bells import BellKind
from armorplan.app.rows import TimerRow

MOST_CHOSEN = 20
"""Of a whole tray so many steps are asked whether they dry."""


def is_drying(row: TimerRow) -> bool:
    """Tell whether a timer is that of something drying here, not that of a window."""
    window = any(bell.kind in (BellKind.OPENS, BellKind.CLOSES) for bell in row.bells)
    return row.drying and row.running_since is not None and not row.build and not window


def meant_drying(
    rows: Iterable[TimerRow],
    *,
    focused: str,
    shown: str,
    chosen: tuple[str, ...],
    may_look: Callable[[str], bool],
) -> str:
    """Return the step whose drying is meant; empty where it has to be chosen first.

    Args:
        rows: the timers.
        focused: the id of the timer that has the keyboard, which comes first.
        shown: the step whose drying is in sight on its page, which comes next.
        chosen: the chosen steps, which follow; then the only drying there is.
        may_look: whether a step is a drying, or makes one, that has begun.
    """
    drying = [row for row in rows if is_drying(row)]
    for meant in (
        [row.step for row in drying if row.id == focused],
        [step for step in (shown,) if step and may_look(step)],
        [step for step in chosen[:MOST_CHOSEN] if may_look(step)],
        [row.step for row in drying] if len(drying) == 1 else [],
    ):
        if meant:
            return meant[0]
    return ""
