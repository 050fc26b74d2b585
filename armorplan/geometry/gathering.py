"""Everything the shapes tell of a pattern, topic by topic."""

from collections.abc import Callable, Iterator

from armorplan.geometry.bends.measuring import bend_measures
from armorplan.geometry.covers.measuring import cover_measures
from armorplan.geometry.lames.measuring import lame_measures
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.posts.measuring import post_measures
from armorplan.geometry.reach.measuring import reach_measures
from armorplan.geometry.rows.measuring import row_measures
from armorplan.kernel.findings import Severity
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

_Topic = Callable[[Pattern, Shelf], Iterator[Measure]]
TOPICS: tuple[_Topic, ...] = (
    row_measures,
    cover_measures,
    bend_measures,
    post_measures,
    lame_measures,
    reach_measures,
)
QUICK_TOPICS = TOPICS[:-1]
"""Those that take little: all but reach."""
_WRONG_WAY = frozenset({"sides-disagree", "pivots-crossed"})
"""A part lies upside down or flesh side out: what lies where in its piece is not known."""
_BY_PLACE = frozenset({"which-lies-outside"})
"""What is asked only of parts that come to lie on each other."""


def measures(
    pattern: Pattern, shelf: Shelf, topics: tuple[_Topic, ...] = TOPICS
) -> tuple[Measure, ...]:
    """Return what rows, covers, bends, posts, lames and reach tell, sound or not, in the order of topics."""
    order = tuple(Topic)
    found = tuple(measure for topic in topics for measure in topic(pattern, shelf))
    told = _without_what_follows(pattern, found)
    return tuple(sorted(told, key=lambda measure: order.index(measure.topic)))


def _without_what_follows(pattern: Pattern, found: tuple[Measure, ...]) -> Iterator[Measure]:
    """Yield measures without questions that come up only because a part lies the wrong way round."""
    piece_of = {part.id: part.piece for part in pattern.parts}
    wrong = {
        piece_of[about]
        for measure in found
        for finding in measure.findings
        if finding.code in _WRONG_WAY and finding.severity is not Severity.NOTE
        for about in finding.about
        if about in piece_of
    }
    for measure in found:
        asked = bool(measure.findings) and all(f.code in _BY_PLACE for f in measure.findings)
        pieces = {piece_of[about] for about in measure.about if about in piece_of}
        if not asked or wrong.isdisjoint(pieces):
            yield measure
