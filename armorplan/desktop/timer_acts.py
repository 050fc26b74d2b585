"""What a person can do with one timer from its card."""

from enum import Enum, auto
from typing import NamedTuple

from PySide6.QtCore import QCoreApplication

from armorplan.app.rows import TimerRow
from armorplan.desktop.meant_drying import is_drying


class Act(Enum):
    """One thing to do."""

    GO = auto()
    HUSH = auto()
    DRY = auto()
    DAMP = auto()
    MORE = auto()
    PAUSE = auto()
    STOP = auto()


class Asked(NamedTuple):
    """What is to be done, and with which timer."""

    act: Act
    row: TimerRow


_WORDS = {
    Act.GO: "Go there",
    Act.HUSH: "Quiet: I heard it",
    Act.DRY: "Dry now",
    Act.DAMP: "Still damp",
    Act.MORE: "5 minutes more",
    Act.PAUSE: "Pause, or go on",
    Act.STOP: "Stop this timer",
}


def act_text(act: Act) -> str:
    """Return an act's label in the person's language."""
    return QCoreApplication.translate("timer_acts", _WORDS[act])


def acts_of(row: TimerRow, *, rings: bool) -> tuple[Act, ...]:
    """Return what can be done with a timer now, in the order of its menu."""
    acts = [Act.GO, *([Act.HUSH] if rings else [])]
    if row.free:
        return (*acts, Act.MORE, Act.PAUSE, Act.STOP)
    if is_drying(row):
        return (*acts, Act.DRY, Act.DAMP)
    if not row.build and not row.drying:
        acts.append(Act.PAUSE)
    return tuple(acts)
