"""The rounds of one dry fit as rows: what is on, its pins, what is looked at, where."""

from dataclasses import dataclass
from itertools import chain

from armorplan.app.fit_looks import (
    Fitting,
    Look,
    bend_looks,
    first_looks,
    own_looks,
    seam_looks,
    together_looks,
    worn_looks,
)
from armorplan.app.fit_order import PinReach
from armorplan.app.fit_pins import ClipRow, PinRow, RoundPins, round_pins
from armorplan.app.fit_seams import FitSeam
from armorplan.app.fit_worn import wholes
from armorplan.orders.pinning.model import Group, PinProblem, Rounds

_TWO = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundRow:
    """One putting together: the pins that go in, in order, and what is looked at then.

    Attributes:
        seams: ids of the seams that are on.
        clips: joints that would take a pin and have none, for too few there are.
        on_wearer: after a look on the bench it goes on the wearer.
    """

    number: int
    title: str
    seams: tuple[str, ...]
    pins: tuple[PinRow, ...]
    clips: tuple[ClipRow, ...]
    looks: tuple[Look, ...]
    on_wearer: bool


def round_rows(
    fitting: Fitting, reach: PinReach, problem: PinProblem, found: Rounds
) -> tuple[RoundRow, ...]:
    """Return the rounds, what stays on the bench first; each look stands where it first can."""
    return _Telling(fitting, reach, problem).rows(found)


class _Telling:
    """One dry fit under telling, round by round."""

    def __init__(self, fitting: Fitting, reach: PinReach, problem: PinProblem) -> None:
        self._fitting, self._reach, self._problem = fitting, reach, problem
        self._seams = {seam.id: seam for seam in fitting.seams}
        self._wholes = wholes(fitting.derived, fitting.fit, fitting.seams)
        self._seen: set[str] = set()
        self._met: set[Group] = set()

    def rows(self, found: Rounds) -> tuple[RoundRow, ...]:
        worn = self._worn(found.rounds)
        ordered = [on for on in found.rounds if on != worn]
        if self._fitting.is_worn or not ordered:
            ordered.append(worn)
        *bench, last = ordered
        full = self._wholes[0] if self._wholes else ()
        clipped = tuple(s for s in self._seams if s in (*full, *found.unpinned) and s not in last)
        count = len(ordered)
        return (
            *(self._row(on, number=at, count=count) for at, on in enumerate(bench, start=1)),
            self._row(last, number=count, count=count, clipped=clipped),
        )

    def _worn(self, rounds: tuple[Group, ...]) -> Group:
        """Return what goes on the wearer, the last of all.

        It is a round with all that is worn at once, or with the least of it; where no round has as
        many pins, the least of it with clips, in a round of its own.
        """
        if not self._fitting.is_worn:
            return ()
        for whole in self._wholes:
            whole_on = [on for on in rounds if {*whole} <= {*on}]
            if whole_on:
                return max(whole_on, key=lambda on: len({*on} & {*self._wholes[0]}))
        return self._wholes[-1] if self._wholes else max(rounds, key=len, default=())

    def _row(self, on: Group, *, number: int, count: int, clipped: Group = ()) -> RoundRow:
        """Return a round; in the last one clips hold what has no pins."""
        seams, without = (tuple(map(self._seams.__getitem__, some)) for some in (on, clipped))
        held = round_pins(self._reach, self._problem, seams, without)
        is_worn = self._fitting.is_worn and number == count
        named = f"Round {number} of {count}" if count > 1 else "One round"
        where = "on the bench, then on the wearer" if is_worn else "on the bench"
        return RoundRow(
            number=number,
            title=f"{named}, {where}: {_held_words(held)}",
            seams=on,
            pins=held.pins,
            clips=held.clips,
            looks=self._looks((*seams, *without), is_first=number == 1, is_last=number == count),
            on_wearer=is_worn,
        )

    def _looks(
        self, seams: tuple[FitSeam, ...], *, is_first: bool, is_last: bool
    ) -> tuple[Look, ...]:
        fitting = self._fitting
        is_worn = fitting.is_worn and is_last
        fresh = [seam for seam in seams if seam.id not in self._seen]
        met = self._problem.groups_in(seam.id for seam in seams) - self._met
        pairs = [group for group in self._problem.together if group in met and len(group) == _TWO]
        self._seen.update(seam.id for seam in fresh)
        self._met |= met
        return tuple(
            chain(
                first_looks(fitting) if is_first else (),
                seam_looks(fresh),
                bend_looks(fitting, fresh, on_wearer=False) if not is_worn else (),
                together_looks(fitting, [(self._seams[a], self._seams[b]) for a, b in pairs]),
                worn_looks(fitting, seams) if is_worn else (),
                own_looks(fitting) if is_last else (),
            )
        )


def _held_words(held: RoundPins) -> str:
    extra = sum(pin.is_extra for pin in held.pins)
    spare = f", and {extra} that may be left out" if extra else ""
    places = "1 place" if len(held.clips) == 1 else f"{len(held.clips)} places"
    clips = f", and clips in {places}" if held.clips else ""
    count = len(held.pins) - extra
    return f"{count or 'no'} {'pin' if count == 1 else 'pins'}{spare}{clips}"
