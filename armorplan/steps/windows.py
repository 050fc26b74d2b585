"""Windows between two steps that the air opens and closes: shape while damp, coat again in time."""

from collections.abc import Iterator
from dataclasses import dataclass

from armorplan.drying.body import LIKELY, Body, multiples
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.drying.stages import LATEST, stage_minutes
from armorplan.steps.model import Drying, Step, StepKind, Work
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Shelf, TreatmentEntry

SHORT_MIN = 8
"""A window shorter than that is told: a part is hardly tied on its form in it."""
_WHILE = 1.25
"""Below this ratio of its ends a window closes in quick air almost as it opens."""
_COATS = (StepKind.DYE, StepKind.OIL, StepKind.FINISH)


@dataclass(frozen=True, slots=True, kw_only=True)
class StepWindow:
    """Within which stages of a drying one step has to begin after another.

    The minutes of both stages count from the real end of ``first``, and depend on when that is:
    a room (``drying.room``) tells them of ``treatment`` and ``body``.

    Attributes:
        first: what makes it wet: a casing, a coat.
        then: what has to follow in time.
        treatment: the catalogue's id.
        body: what dries; the thickest, which is ready last.
        thin: the thinnest of it, which is too dry first.
        opens: not before this stage; ``None``: at once, or as other relations say.
        closes: by this stage; ``None``: at any time after.
    """

    first: str
    then: str
    treatment: str
    body: Body
    opens: Stage | None
    closes: Stage | None
    thin: Body | None = None

    def body_at(self, stage: Stage) -> Body:
        """Return what makes a stage: it opens with the thickest and closes with the thinnest."""
        return self.thin if self.thin is not None and stage in LATEST else self.body


def window_of(work: Work, shelf: Shelf, first: str, then: str) -> StepWindow | None:
    """Return the window that the air leaves between two steps, or ``None`` where it leaves none."""
    if not (work.has(first) and work.has(then)):
        return None
    one, other = work.step(first), work.step(then)
    if one.serves == then:
        return _window(shelf, one, other, one.drying, opens=Stage.OPENS, closes=Stage.CLOSES)
    if one.kind in _COATS and (one.tray, one.coat + 1) == (other.tray, other.coat):
        dry = work.drying_of(first)
        return _window(shelf, one, other, dry.drying if dry else None, closes=Stage.RECOAT_BY)
    return None


def _window(
    shelf: Shelf,
    first: Step,
    then: Step,
    drying: Drying | None,
    *,
    opens: Stage | None = None,
    closes: Stage | None = None,
) -> StepWindow | None:
    entry = shelf.treatment(drying.treatment) if drying else None
    if drying is None or entry is None:
        return None
    known = stage_minutes(entry)
    opens, closes = (stage if stage in known else None for stage in (opens, closes))
    if opens is None and closes is None:
        return None
    return StepWindow(
        first=first.id,
        then=then.id,
        treatment=entry.id,
        body=drying.body,
        opens=opens,
        closes=closes,
        thin=drying.thin if leaves_time(entry, drying) else None,
    )


def leaves_time(entry: TreatmentEntry, drying: Drying) -> bool:
    """Tell whether the thinnest is right to shape for a while once the thickest is, in any air.

    Both pass through the same air, so that what it does to them leaves their order. Where it does
    not, the thin has to be damped again as it is begun, and the window is that of the thick.
    """
    if drying.thin is None or entry.window_min is None:
        return True
    opens_min, closes_min = entry.window_min
    opens_at = opens_min * multiples(entry, drying.body)[LIKELY]
    closes_at = closes_min * multiples(entry, drying.thin)[LIKELY]
    return closes_at >= max(_WHILE * opens_at, opens_at + SHORT_MIN)


def first_turn_min(room: Room, entry: TreatmentEntry, body: Body) -> int:
    """Return how many minutes after the end of its dripping a dipped coat is turned at the latest.

    No later than one turn after another, and before it is dry to the touch on a usual day in this
    room: what runs after that dries as streaks. 0 where it is dry before it has dripped.
    """
    touch = drying_room(room).usual(entry, body).likely_min(Stage.TOUCH)
    wet = entry.watch_every_min if touch is None else touch - entry.drip_min - 1
    return max(0, min(entry.watch_every_min, wet))


def step_windows(work: Work, shelf: Shelf) -> Iterator[StepWindow]:
    """Yield all windows of a build, in the order its steps are listed."""
    coats = {(step.tray, step.coat): step.id for step in work.of_kind(*_COATS)}
    for step in work.steps:
        then = step.serves
        if step.kind in _COATS:
            then = coats.get((step.tray, step.coat + 1))
        window = window_of(work, shelf, step.id, then) if then else None
        if window is not None:
            yield window
