"""Everything the shapes tell of a pattern, topic by topic."""

from collections.abc import Callable, Iterator

from armorplan.geometry.bends.measuring import bend_measures
from armorplan.geometry.covers.measuring import cover_measures
from armorplan.geometry.lames.measuring import lame_measures
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.posts.measuring import post_measures
from armorplan.geometry.rows.measuring import row_measures
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

_Topic = Callable[[Pattern, Shelf], Iterator[Measure]]
TOPICS: tuple[_Topic, ...] = (
    row_measures,
    cover_measures,
    bend_measures,
    post_measures,
    lame_measures,
)


def measures(pattern: Pattern, shelf: Shelf) -> tuple[Measure, ...]:
    """Return what rows, covers, bends, posts and lames tell, sound or not, in the order of topics."""
    order = tuple(Topic)
    found = (measure for topic in TOPICS for measure in topic(pattern, shelf))
    return tuple(sorted(found, key=lambda measure: order.index(measure.topic)))
