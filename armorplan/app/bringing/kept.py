"""What is dear is reckoned once: the same parts give the same look-alikes and the same matches."""

from dataclasses import dataclass, field
from functools import lru_cache

from armorplan.geometry.alike.likeness import LookAlike, look_alikes
from armorplan.geometry.matching.model import RowMatch
from armorplan.geometry.matching.suggesting import suggested
from armorplan.kernel.stopping import ShouldStop
from armorplan.pattern.parts import Part


@dataclass(frozen=True, slots=True)
class Stop:
    """Asks for an end; all are alike to a cache."""

    ask: ShouldStop = field(compare=False)


@lru_cache(maxsize=32)
def matches_of(parts: tuple[Part, ...], stop: Stop) -> tuple[RowMatch, ...]:
    """Return which rows of holes fit each other, the likeliest first."""
    return suggested(parts, should_stop=stop.ask)


@lru_cache(maxsize=8)
def likenesses_of(parts: tuple[Part, ...], stop: Stop) -> tuple[LookAlike, ...]:
    """Return the parts that look alike."""
    return look_alikes(parts, should_stop=stop.ask)
