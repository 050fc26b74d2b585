"""What the rest of its own row does to a joint: begun at the rim, the deep end is dear."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Margin, ReachNet, Row, Standing

_ENDS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class ShutIn:
    """A joint that is dearer to set once these others of its row are set.

    Attributes:
        of: plain ids of the others: one side of it, or both.
        before: as it stands when the row is set in its order.
        after: as it stands once all of them are set.
    """

    row: Row
    joint: str
    of: tuple[str, ...]
    before: Margin
    after: Margin


def shut_in(net: ReachNet, bench: Bench, runs: Mapping[str, tuple[str, ...]]) -> Iterator[ShutIn]:
    """Yield what each row makes dearer of its own joints, and the order it is set in avoids.

    The other rows are taken to be open.

    Args:
        net: the ways in.
        bench: tools and constants.
        runs: by row, its joints in the order it is set in; of a row that has none, nothing is told.
    """
    for shell in net.shells.values():
        for row in shell.rows:
            if len(row.joints) >= _ENDS and (run := runs.get(row.id)):
                for joint in row.joints:
                    yield from _of_joint(net, bench, (row, run), joint)


def _of_joint(
    net: ReachNet, bench: Bench, laid: tuple[Row, tuple[str, ...]], joint: str
) -> Iterator[ShutIn]:
    row, run = laid
    at, turn = row.joints.index(joint), run.index(joint)
    earlier, later = frozenset(run[:turn]), frozenset(run[turn + 1 :])
    before = margin(net, joint, earlier, bench)
    sides = (row.joints[:at], row.joints[at + 1 :])
    worst = before
    for of in (*sides, sides[0] + sides[1]):
        if later.isdisjoint(of):
            continue
        after = margin(net, joint, frozenset(of), bench)
        if after.standing is Standing.CANNOT:
            return
        if after.effort > worst.effort:
            yield ShutIn(row=row, joint=joint, of=of, before=before, after=after)
            worst = after
