"""Damp work that is done once more since its window was missed, and what that costs the others."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from armorplan.schedule.promise.bench import Bench
from armorplan.schedule.promise.hours import NEVER
from armorplan.schedule.promise.policy import Closing, Part

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles, Flags, Rows

_TRIES, _SMALL = 24, 10
"""So often it is put off until what follows fits behind it; after some tries by more each time."""
_HAIR = 0.5
"""A window is not missed by less than half a minute."""


class _Span(NamedTuple):
    piece: int
    start: "Doubles"
    end: "Doubles"


class DoneAgain:
    """Finds when damp work can be done again, and books its people, its bath and its room."""

    def __init__(self, parts: Sequence[Part], bench: Bench) -> None:
        self._parts = parts
        self._bench = bench
        self._over: dict[int, list[int]] = {}
        for k, part in enumerate(parts):
            for wait in part.waits:
                if wait.is_turn:
                    self._over.setdefault(wait.of, []).append(k)

    def starts(self, k: int, closing: Closing, since: "Doubles", rows: "Rows") -> "Doubles":
        """Return when it starts in these runs once what went before was done again from then on.

        What still comes too late after all tries is missed for good: it starts never.
        """
        import numpy as np

        found, since = np.full(since.shape, NEVER), since.copy()
        left = np.arange(len(since))
        for tried in range(_TRIES):
            spans, start, late = self._once(k, closing, since[left], rows[left])
            is_late = late > _HAIR
            found[left[~is_late]] = start[~is_late]
            for span in spans:
                self._book(k, span, ~is_late, rows[left])
            since[left[is_late]] += np.maximum(late[is_late], _least(tried))
            left = left[is_late]
            if not len(left):
                break
        return found

    def _once(
        self, k: int, closing: Closing, since: "Doubles", rows: "Rows"
    ) -> "tuple[list[_Span], Doubles, Doubles]":
        """Return what is done again, when ``k`` starts then, and by how much that is too late."""
        import numpy as np

        bench, spans, late = self._bench, list[_Span](), np.zeros(since.shape)
        start, latest = since, since
        for other, lag in closing.again:
            room = self._room(other, k)[rows]
            if not spans:
                start = bench.free(other, np.maximum(start, room), rows)
            np.maximum(late, room - start, out=late)
            end = bench.worked(other, start, rows)
            spans.append(_Span(other, start, end))
            start, latest = bench.opens(end, lag.min_lag, lag.opens), bench.latest(end, lag)
        start = bench.free(k, start, rows)
        return spans, start, np.maximum(late, start - latest)

    def _line(self, piece: int, before: int) -> tuple[int, ...]:
        """Return who took over its bath or room so far, and took that over from them."""
        found, asked = {piece}, [piece]
        while asked:
            new = {k for k in self._over.get(asked.pop(), ()) if k < before} - found
            found |= new
            asked += sorted(new)
        return tuple(sorted(found - {piece}))

    def _room(self, piece: int, before: int) -> "Doubles":
        """Return from when on there is room for a piece again, in every run."""
        import numpy as np

        work = self._parts[piece].work
        since: Doubles = np.full(self._bench.runs, -np.inf)
        since = np.maximum(since, self._bench.repeats.left_at(piece, self._parts[piece]))
        for k in self._line(piece, before):
            other = self._parts[k]
            is_changed = bool(work.bath) and other.work.family != work.family
            gap = other.change_min if is_changed else 0
            since = np.maximum(since, self._bench.ends[k] + gap)
        return since

    def _book(self, k: int, span: _Span, met: "Flags", rows: "Rows") -> None:
        """Take what is done again out of the time of its people, its bath and its room."""
        if not met.any():
            return
        line = (span.piece, *self._line(span.piece, k))
        family = self._parts[span.piece].work.family
        self._bench.book(span.piece, (span.start[met], span.end[met]), rows[met])
        self._bench.repeats.keep(line, family, span.end[met], rows[met])


def _least(tried: int) -> float:
    """Return by how many minutes it is put off at the least."""
    return 2.0 ** max(0, tried - _SMALL)
