"""The bells of each sort of timer. Their sentences hold marks for what depends on now and the zone."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from armorplan.app.bells import Bell, BellKind

UNANSWERED = timedelta(minutes=30)
"""A timer that is due and answered by nobody so long after is late."""
LONGEST_LEAD = timedelta(minutes=10)
_LEAD_SHARE = 4
_LONGEST_TURN = timedelta(minutes=5)
AT, CLOSES, SURELY = "{at}", "{closes}", "{surely}"
"""The instant it speaks of, when the window closes, by when it surely is so."""
SINCE, WAS = "{since}", "{was}"
"""'since 14:20' once it has come and 'from 14:20 on' before; 'was' and 'is' likewise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ringer:
    """What all bells of one timer share."""

    timer: str
    step: str
    title: str

    def bell(
        self,
        kind: BellKind,
        at: datetime,
        meaning: str,
        *,
        number: int = 0,
        about_at: datetime | None = None,
        instead_of: str = "",
    ) -> Bell:
        """Return a bell of this timer; ``about_at`` only where it speaks of another instant."""
        return Bell(
            id=f"{self.timer}|{kind}|{number}",
            kind=kind,
            at=at,
            about_at=about_at or at,
            timer=self.timer,
            step=self.step,
            title=self.title,
            meaning=meaning,
            instead_of=instead_of,
        )

    def due(self, at: datetime, meaning: str, *, number: int = 0) -> tuple[Bell, Bell]:
        """Return the bell of a time that is up, and the one for where nobody answers it."""
        due = self.bell(BellKind.DUE, at, meaning, number=number)
        late = self.bell(
            BellKind.LATE,
            at + UNANSWERED,
            f"Nobody has answered. {meaning}",
            number=number,
            about_at=at,
            instead_of=due.id,
        )
        return due, late

    def window(self, opens: tuple[datetime, str] | None, by: "Latest | None") -> tuple[Bell, ...]:
        """Return the bells of a window: it opens, it will close, it has closed."""
        found = []
        if opens is not None:
            found.append(self.bell(BellKind.OPENS, *opens))
        if by is not None:
            found += self._closing(by)
        return tuple(found)

    def _closing(self, by: "Latest") -> Iterator[Bell]:
        lead = min(LONGEST_LEAD, (by.at - by.since_at) / _LEAD_SHARE)
        yield self.bell(BellKind.CLOSES, by.at - lead, by.ahead, about_at=by.at)
        late = self.bell(BellKind.LATE, by.at, f"{by.missed} {by.remedy}".strip())
        yield replace(late, remedy=by.remedy)

    def turns(self, start_at: datetime, every_min: int, minutes: float) -> Iterator[Bell]:
        """Yield a watch's bells: each turn, and the one for a turn that nobody answers.

        The turn at the very end is none: then the watch is over.
        """
        pause = timedelta(minutes=every_min)
        patience = min(_LONGEST_TURN, pause / 2)
        for number in range(1, int((minutes - 1e-9) // every_min) + 1):
            at = start_at + number * pause
            turn = self.bell(
                BellKind.WATCH, at, "Turn each piece now, and wipe off drops.", number=number
            )
            yield turn
            yield self.bell(
                BellKind.LATE,
                at + patience,
                f"Nobody answered the turn of {AT}: it may have streaked. Look at it now.",
                number=number,
                about_at=at,
                instead_of=turn.id,
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Latest:
    """The latest instant to begin something.

    Attributes:
        at: the instant.
        since_at: when it might first begin: what the lead of the warning is measured by.
        ahead: what is said before it closes.
        missed: what it means that it has closed.
        remedy: what to do then; empty where nobody said.
    """

    at: datetime
    since_at: datetime
    ahead: str
    missed: str
    remedy: str = ""
