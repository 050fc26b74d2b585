"""When a plan puts the most solvent into the air of the room: coats close together add up."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache
from math import ceil
from zoneinfo import ZoneInfo

from armorplan.app.derived import Derived
from armorplan.app.itself import Itself
from armorplan.drying.vapour import KEEP_BELOW_PCT, Vapour
from armorplan.steps.model import Step, StepKind
from armorplan.steps.scene import Scene
from armorplan.steps.surface_work import is_dipped
from armorplan.steps.wetted import vapour_at

TOGETHER = timedelta(hours=4)
"""So long a closed room is taken to hold what evaporates (common practice, no source)."""
_MOST_BUILDS = 64
_GIVES_OFF = (StepKind.CLEAN, StepKind.DYE, StepKind.OIL, StepKind.FINISH, StepKind.GLUE)
_Spans = Mapping[str, tuple[datetime, datetime, str | None]]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Puff:
    """What one step leaves to evaporate, from its start to its end."""

    start_at: datetime
    end_at: datetime
    vapour: Vapour


def solvent_words(
    derived: Derived, spans: _Spans, beside: Iterable[tuple[Derived, _Spans]] = ()
) -> str:
    """Return the most solvent that a plan evaporates within a few hours, in sentences.

    Empty where no two steps of it give off any within that time. All that several solvents hold
    is added by their shares of the lower explosive limit (Le Chatelier's rule, from memory).

    Args:
        derived: a build.
        spans: start, end and who of its steps.
        beside: other builds that are worked in the same room.
    """
    everything = ((derived, spans), *beside)
    found = (puff for one, when in everything for puff in _puffs(one, when))
    puffs = sorted(found, key=lambda puff: (puff.end_at, puff.start_at))
    most = max(_close_together(puffs), key=_at_limit_m3, default=())
    return _words(most, ZoneInfo(derived.shop.zone)) if len(most) > 1 else ""


def _puffs(derived: Derived, spans: _Spans) -> Iterator[_Puff]:
    for name, vapour in vapours_of(derived).items():
        if name in spans:
            start_at, end_at, _ = spans[name]
            yield _Puff(start_at=start_at, end_at=end_at, vapour=vapour)


def vapours_of(derived: Derived) -> Mapping[str, Vapour]:
    """Return what each step of a build gives off; reckoned once for a build, in any thread."""
    return _vapours(Itself(derived))


@lru_cache(maxsize=_MOST_BUILDS)
def _vapours(build: Itself) -> Mapping[str, Vapour]:
    derived = build.derived
    scene = Scene(assembly=derived.assembly, shelf=derived.shelf, room=derived.shop.room)
    found = ((step.id, _vapour(scene, step)) for step in derived.work.steps)
    return {name: vapour for name, vapour in found if vapour is not None}


def _vapour(scene: Scene, step: Step) -> Vapour | None:
    used = step.fastener if step.kind is StepKind.GLUE else step.treatment
    entry = scene.shelf.treatment(used or "") if step.kind in _GIVES_OFF else None
    return vapour_at(scene, step, entry, dipped=is_dipped(step)) if entry else None


def _close_together(puffs: list[_Puff]) -> Iterator[tuple[_Puff, ...]]:
    ends = [puff.end_at for puff in puffs]
    for at, end_at in enumerate(ends):
        yield tuple(puffs[bisect_right(ends, end_at - TOGETHER) : at + 1])


def _at_limit_m3(puffs: Iterable[_Puff]) -> float:
    """Return the room in m³ that all of it together would fill to the lower explosive limit."""
    return sum(puff.vapour.solvent_g / puff.vapour.lel_g_per_m3 for puff in puffs)


def _words(puffs: tuple[_Puff, ...], zone: ZoneInfo) -> str:
    first, last = puffs[0].start_at.astimezone(zone), puffs[-1].end_at.astimezone(zone)
    grams = sum(puff.vapour.solvent_g for puff in puffs)
    solvents = " and ".join(sorted({puff.vapour.solvent for puff in puffs}))
    least_m3 = ceil(_at_limit_m3(puffs) * 100 / KEEP_BELOW_PCT)
    head = (
        f"Most solvent at a time: {first:%a} {first.day} {first:%b}, {first:%H:%M} to {last:%H:%M}, "
        f"{len(puffs)} steps give off about {grams:.0f} g of {solvents}"
    )
    volume_m3 = puffs[0].vapour.volume_m3
    if volume_m3 is None:
        told = f"it takes {least_m3} m³ of air to stay below {KEEP_BELOW_PCT:g} %"
        return f"{head}: {told} of the lower explosive limit. {_RULES}"
    pct = 100 * _at_limit_m3(puffs) / volume_m3
    held = f"in {volume_m3:g} m³ of still air {pct:.1f} % of the lower explosive limit"
    much = (
        f"too much, keep below {KEEP_BELOW_PCT:g} %: spread them over more days, or do it outdoors"
        if pct >= KEEP_BELOW_PCT
        else f"keep below {KEEP_BELOW_PCT:g} %"
    )
    return f"{head}: {held}; {much}. {_RULES}"


_RULES = (
    "Open trays and cans give off more; the steps name the sources. Label, local codes and licensed "
    "practice rule."
)
