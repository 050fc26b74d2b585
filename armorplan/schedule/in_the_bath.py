"""What a bath holds now, from what was dipped last: it has to be changed before another colour."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import datetime

from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.dips import baths_for, coat_family
from armorplan.schedule.problem import Bath


def as_left(baths: Iterable[Bath], builds: Iterable[BuildInHand]) -> tuple[Bath, ...]:
    """Return baths with what the last coat at the bench left in them.

    Of a coat that could have gone into several baths nobody knows which it was; then the bath
    holds what the shop says.
    """
    last: dict[str, tuple[datetime, str]] = {}
    for bath, at, family in (each for build in builds for each in _dipped(build)):
        last[bath] = max(last.get(bath, (at, family)), (at, family))
    return tuple(replace(b, holds=last[b.id][1]) if b.id in last else b for b in baths)


def _dipped(build: BuildInHand) -> Iterator[tuple[str, datetime, str]]:
    """Yield the bath of each coat begun, where there is but one, when, and what it left there."""
    history = build.history
    begun = {step: start_at for step, (start_at, _) in history.done.items()} | dict(
        history.running
    )
    for name, start_at in sorted(begun.items()):
        step = build.work.step(name) if build.work.has(name) else None
        baths = baths_for(build.workplace.shop, step) if step else ()
        if step and len(baths) == 1:
            yield baths[0].id, start_at, coat_family(step)
