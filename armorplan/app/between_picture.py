"""What comes first of two, in section: how a tool gets to it before the other and after it."""

from armorplan.app.along_between import OtherEnd
from armorplan.app.derived import Derived
from armorplan.app.reach_between import BothWays, both_ways
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.pictures import reach_picture
from armorplan.geometry.ways_in import ReachPicture
from armorplan.relations.index import first_and_members


def between_picture(
    derived: Derived, ways: BothWays | None, end: OtherEnd | None, other: str
) -> ReachPicture | None:
    """Return the section of what is told by reach; ``None`` where no tool has to go in.

    Args:
        derived: the build.
        ways: how what comes first is set before the other and after it.
        end: of two joints of one row what is against its other end: its gravest bar is shown.
        other: what it comes before, in a maker's words.
    """
    states = f"before {other}", f"after {other}"
    if ways is None and end is not None and end.bars:
        step, others = first_and_members(end.bars[0])
        ways = both_ways(derived, step, others)
        states = "as the row is set here", "from its other end"
    if ways is None:
        return None
    reach = reach_of(derived.pattern, derived.shelf)
    told = zip(states, (ways.before, ways.after), strict=True)
    return reach_picture(reach, ways.joint, told)
