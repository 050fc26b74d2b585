"""Shells that their rows shut round without a mouth: the first joint that no tool gets in behind."""

from dataclasses import dataclass

from armorplan.geometry.reach.gathered import Reach
from armorplan.geometry.reach.lying_flat import Hanging
from armorplan.geometry.reach.margins import gauges
from armorplan.geometry.reach.model import Row, Shell
from armorplan.geometry.reach.openings import made_at


@dataclass(frozen=True, slots=True, kw_only=True)
class Sealed:
    """The last row of a shell without a mouth, and from where on no tool gets in any more.

    Attributes:
        row: set after all others.
        joints: the first that no tool gets in behind and those set after it, in their order.
        gap_mm: the widest that a gap of the row still stands open then.
    """

    row: Row
    joints: tuple[str, ...]
    gap_mm: float


def has_no_mouth(shell: Shell) -> bool:
    """Tell whether no edge of a shell stays free once its rows shut it round.

    Plates that only lie on each other, layer on layer, cover each other's edges and shut nothing in.
    """
    hanging = Hanging(shell.rows, shell.formed, shell.closures)
    return not shell.rims and hanging.is_enclosed(shell.parts, {row.id for row in shell.rows})


def sealed_from(reach: Reach, shell: Shell) -> Sealed | None:
    """Return from where on the longest row of a shell without a mouth, set last, lets no tool in.

    ``None``: the shell has a mouth, or some tool gets in up to the end, or none is known.
    """
    if not has_no_mouth(shell):
        return None
    row = max(shell.rows, key=lambda row: len(row.joints))
    run = reach.runs.get(row.id, row.joints)
    others = frozenset(j for each in shell.rows if each is not row for j in each.joints)
    gauge = gauges(reach.drawn, reach.bench)[shell.id]
    for at, joint in enumerate(run):
        made = others.union(run[:at])
        if reach.bench.tools.get(joint) and not gauge.is_let_in(joint, made):
            state = made_at(gauge.places, made | {joint})
            ways = (way for way in gauge.access[joint].ways if way.name not in made | {joint})
            gap_mm = max((gauge.opening_mm(way, state) for way in ways), default=0.0)
            return Sealed(row=row, joints=tuple(run[at:]), gap_mm=gap_mm)
    return None
