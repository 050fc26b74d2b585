"""What all that is reckoned of a shell follows from: a shell that an edit left alone is not redone."""

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.margins import Gauge


class Known:
    """All that the bars of a shell follow from, compared by value, told apart quickly."""

    __slots__ = ("bench", "facts", "gauge")

    def __init__(self, gauge: Gauge, bench: Bench) -> None:
        self.gauge, self.bench = gauge, bench
        shell = gauge.shell
        joints = joints_of(gauge)
        self.facts = (
            (shell.id, shell.parts, len(joints)),
            (shell.rows, shell.rims, shell.formed, shell.hollow, shell.closures),
            tuple(gauge.access[joint] for joint in joints),
            tuple(
                (bench.tools.get(joint, ()), bench.squash(joint), joint in bench.unsure)
                for joint in joints
            ),
            (bench.row_gape, bench.hand_depth_mm),
            (bench.curved_effort, bench.inside_effort, bench.end_effort),
        )

    def __hash__(self) -> int:
        return hash(self.facts[0])

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Known) and self.facts == other.facts


def joints_of(gauge: Gauge) -> list[str]:
    """Return the joints whose shell it is, in the order of their ids."""
    id_ = gauge.shell.id
    return sorted(joint for joint in _all_joints(gauge) if gauge.access[joint].shell == id_)


def _all_joints(gauge: Gauge) -> set[str]:
    return {joint for joint in {*gauge.places, *gauge.shell.seats} if joint in gauge.access}
