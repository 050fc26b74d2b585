"""How one step stands: its status, the stretches it was worked, its notes and its sign-off."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from armorplan.kernel.clock import Clock
from armorplan.ledger.looks import LookTaken


class StepStatus(StrEnum):
    """What the ledger says of a step, whatever its relations say."""

    UNTOUCHED = "untouched"
    RUNNING = "running"
    PAUSED = "paused"
    DONE = "done"


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """An instant by both clocks: the wall's (aware, UTC) and the machine's since it booted."""

    at: datetime
    boot_id: str
    boot_s: float

    @property
    def run(self) -> str:
        """A name for what it began, which no clock that is set and no restart changes."""
        return f"{self.boot_id}|{self.boot_s:.3f}"


def moment_now(clock: Clock) -> Moment:
    """Read both clocks."""
    return Moment(at=clock.now(), boot_id=clock.boot_id(), boot_s=clock.boot_seconds())


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """One stretch of work; ``end`` is ``None`` while it lasts."""

    start: Moment
    end: Moment | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """What somebody wrote to a step."""

    at: datetime
    text: str
    who: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class StillDamp:
    """A look that found a drying still damp, and when it was taken by both clocks."""

    moment: Moment
    look: LookTaken


@dataclass(frozen=True, slots=True, kw_only=True)
class StepRecord:
    """How a step stands by the ledger.

    Attributes:
        stretches: the stretches it was worked, in order; empty for a step ticked without a start.
        counts_from: the stretch from which on the timer counts: the first since the step was last
            begun anew, as rework or because it has to dry again.
        done_moment: when it was ticked, ``None`` unless its status is done.
        signed_off: somebody said it is right; starting the step again takes that back.
        signed_off_by: who said so, where known.
        waived: why it was left out and counts as signed off; empty where it was done.
        told_min: minutes it takes in all since it was last begun anew, as somebody at it said;
            ``None``: as planned.
        who: who began it last, or ticked it since; empty where nobody said.
        damp: the last look since it began that found it still damp; ``None``: there was none.
    """

    step: str
    status: StepStatus = StepStatus.UNTOUCHED
    stretches: tuple[Stretch, ...] = ()
    counts_from: int = 0
    done_moment: Moment | None = None
    notes: tuple[Note, ...] = ()
    signed_off: bool = False
    signed_off_by: str = ""
    waived: str = ""
    damp: StillDamp | None = None
    told_min: int | None = None
    who: str = ""

    @property
    def counted(self) -> tuple[Stretch, ...]:
        """The stretches since the step was last begun anew."""
        return self.stretches[self.counts_from :]

    @property
    def damp_at(self) -> datetime | None:
        """When it was last found still damp, since it began."""
        return self.damp.moment.at if self.damp else None

    @property
    def done_at(self) -> datetime | None:
        """The instant it was ticked, ``None`` unless its status is done."""
        return self.done_moment.at if self.done_moment else None
