"""What the shapes tell of a fitted pattern and did not tell before: rows, bends, posts, lames, holes.

How tools reach joints is not asked here: it takes long, and is told when the pattern is opened.
"""

from functools import lru_cache

from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PatternFiles
from armorplan.geometry.bends.measuring import bend_measures
from armorplan.geometry.checking import shape_findings
from armorplan.geometry.lames.measuring import lame_measures
from armorplan.geometry.posts.measuring import post_measures
from armorplan.geometry.rows.measuring import row_measures
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.choosing import settled
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

_TOPICS = (row_measures, bend_measures, post_measures, lame_measures)


def new_findings(before: Pattern, after: PatternFiles, shelf: Shelf) -> tuple[Finding, ...]:
    """Return what is wrong in a fitted pattern and was not in the one it was fitted from.

    Args:
        before: as it was drawn.
        after: the files of the fitted one.
        shelf: the catalogues.
    """
    read = read_pattern(after, shelf)
    if read.pattern is None:
        return tuple(f for f in read.findings if f.severity is Severity.ERROR)
    known = {(f.code, f.about) for f in _found(before, shelf)}
    return tuple(
        finding
        for finding in _found(read.pattern, shelf)
        if finding.severity is not Severity.NOTE and (finding.code, finding.about) not in known
    )


@lru_cache(maxsize=2)
def _found(pattern: Pattern, shelf: Shelf) -> tuple[Finding, ...]:
    """Return what is found; the pattern that several wearers are fitted from is looked at once."""
    built = settled(pattern)
    measures = tuple(measure for topic in _TOPICS for measure in topic(built, shelf))
    return shape_findings(built, shelf, measures)
