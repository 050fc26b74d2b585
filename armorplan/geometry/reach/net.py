"""The net of a whole pattern: its shells and the ways in to each of their joints."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from math import inf, isfinite, pi
from typing import TYPE_CHECKING, NamedTuple

from armorplan.geometry.reach.curving import curves_inwards
from armorplan.geometry.reach.distances import (
    from_spots,
    graph,
    on_rim,
    shell_net,
    straight_in,
)
from armorplan.geometry.reach.girth import Girths, girths, least_mm
from armorplan.geometry.reach.laps import once
from armorplan.geometry.reach.layers import links
from armorplan.geometry.reach.model import (
    Access,
    Gap,
    Link,
    ReachNet,
    Rim,
    Row,
    Shell,
    Through,
    Way,
)
from armorplan.geometry.reach.rims import Mouth, mouths
from armorplan.geometry.reach.shells import Line, ShellCut, shell_cuts, span_mm
from armorplan.geometry.reach.slits import MOST_JOINTS, slits
from armorplan.pattern.pattern import Pattern

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Reals = NDArray[np.float64]


FAR_MM = 400.0
"""In a large shell ways through rows of which a straight tool needs more than this are left out: no
stake on a shelf is as long."""


class _Reached(NamedTuple):
    shell: Shell
    access: tuple[Access, ...]


def reach_net(pattern: Pattern) -> ReachNet:
    """Return the shells of a pattern and the ways in to each joint in them.

    A joint that sits in several shells is reached from both sides: of its shells the one counts
    whose shortest way in is longest. An edit reckons anew only the shells that it touches.
    """
    shells: dict[str, Shell] = {}
    access: dict[str, Access] = {}
    for cut in shell_cuts(pattern):
        reached = _reached(cut)
        shells[reached.shell.id] = reached.shell
        for each in reached.access:
            before = access.get(each.joint)
            if before is None or _nearest_mm(each) > _nearest_mm(before):
                access[each.joint] = each
    return ReachNet(shells=shells, access=access)


def _nearest_mm(access: Access) -> float:
    return access.ways[0].along_mm if access.ways else inf


@lru_cache(maxsize=256)
def _reached(cut: ShellCut) -> _Reached:
    """Return one shell and the ways in to its joints.

    In a large shell ways through rows are left out where a straight tool needs more than any stake
    has; in one that is hollow, of which nothing is called *cannot*, where the leather does.
    """
    import numpy as np
    from scipy.sparse.csgraph import dijkstra

    found, net = mouths(cut), shell_net(cut)
    rims = tuple(on_rim(net, mouth) for mouth in found)
    chords = graph(net, rims)
    large = len(net.joints) + len(net.seats) > MOST_JOINTS
    hollow = curves_inwards(cut, found)
    starts = list(range(net.size, net.size + len(rims)))
    over: Reals = dijkstra(chords, directed=True, indices=starts) if starts else np.empty((0, 0))
    from_rims = from_spots(net, chords, starts, np.inf)
    for at, rim in enumerate(rims):
        seats = from_rims[at, len(net.joints) :]
        from_rims[at, len(net.joints) :] = np.minimum(seats, straight_in(net, rim))
    kept = {} if hollow else once(cut)
    around = [
        Girths(most_mm=mouth.rim.length_mm, near_mm=())
        if hollow
        else girths(cut, kept, net, (mouth.rim.length_mm, rim, far))
        for mouth, rim, far in zip(found, rims, over, strict=True)
    ]
    shell = _shell(cut, found, around, hollow=hollow)
    starts = [*net.joints.values(), *net.gaps.values()]
    far_mm = _far_mm(shell) if large else np.inf
    from_rows = from_spots(net, chords, starts, far_mm)
    names = [*net.joints, *net.seats]
    on = {seat.joint: tuple(dict.fromkeys(part for part, _ in seat.spots)) for seat in cut.seats}
    on |= {joint: parts for line in cut.lines for joint, parts in _plates(line)}
    ways = _Ways(shell, around)
    access = [
        Access(
            joint=joint,
            shell=shell.id,
            ways=tuple(
                sorted(
                    (*ways.by_rims(from_rims[:, at]), *ways.by_rows(joint, from_rows[:, at])),
                    key=lambda way: (way.along_mm, way.through, way.name),
                )
            ),
            parts=on.get(joint, ()),
        )
        for at, joint in enumerate(names)
    ]
    return _Reached(shell, tuple(access))


def _far_mm(shell: Shell) -> float:
    """Return beyond what length in mm ways through the rows of a large shell do not count."""
    return FAR_MM if shell.hollow else FAR_MM + max(shell.girth_mm.values(), default=inf) / pi


class _Ways:
    """The ways in to the joints of one shell, from their lengths."""

    def __init__(self, shell: Shell, around: list[Girths]) -> None:
        self._rims, self._girths, self._hollow = shell.rims, around, shell.hollow
        self._rows: list[tuple[str, str, tuple[int, int] | None]] = [
            (joint, row.id, None) for row in shell.rows for joint in row.joints
        ]
        self._rows += [(gap.name, row.id, gap.between) for row in shell.rows for gap in row.gaps]
        self._most_mm = max(shell.girth_mm.values(), default=inf)

    def by_rims(self, far: "Reals") -> Iterator[Way]:
        """Yield the ways through the rims that lead to a joint."""
        for at, along_mm in enumerate(far.tolist()):
            if isfinite(along_mm):
                rim = self._rims[at]
                girth_mm = max(self._girths[at].most_mm, rim.length_mm)
                least = 0.0 if self._hollow else least_mm(along_mm, girth_mm, rim.even_mm)
                yield Way(
                    through=Through.RIM,
                    name=rim.id,
                    along_mm=along_mm,
                    least_mm=least,
                    opening_mm=rim.opening_mm,
                )

    def by_rows(self, joint: str, far: "Reals") -> Iterator[Way]:
        """Yield the ways through the rows that lead to a joint; none through the joint itself."""
        import numpy as np

        near = np.nonzero(np.isfinite(far))[0].tolist()
        lengths = far[near]
        most = np.zeros(len(near)) if self._hollow else np.maximum(lengths - self._most_mm / pi, 0)
        for at, along_mm, least in zip(near, lengths.tolist(), most.tolist(), strict=True):
            name, row, gap = self._rows[at]
            if name != joint:
                yield Way(
                    through=Through.ROW,
                    name=name,
                    along_mm=along_mm,
                    least_mm=least,
                    row=row,
                    gap=gap,
                )


def _shell(
    cut: ShellCut, found: tuple[Mouth, ...], around: list[Girths], *, hollow: bool
) -> Shell:
    joints = [rung.joint for line in cut.lines for rung in line.rungs]
    flat = links(cut.lines, {part.part: part.turned for part in cut.parts})
    gaps = slits(cut)
    rows = tuple(_row(line, flat.get(line.id, ()), gaps.get(line.id, ())) for line in cut.lines)
    return Shell(
        id=cut.parts[0].part,
        parts=tuple(part.part for part in cut.parts),
        rims=tuple(_rim(*each) for each in zip(found, around, strict=True)),
        rows=rows,
        seats=(*joints, *(seat.joint for seat in cut.seats)),
        girth_mm={
            mouth.rim.id: max(held.most_mm, mouth.rim.length_mm)
            for mouth, held in zip(found, around, strict=True)
        },
        formed=cut.formed,
        hollow=hollow,
        closures=cut.closures if found else _all_round(cut, rows),
    )


def _all_round(cut: ShellCut, rows: tuple[Row, ...]) -> tuple[frozenset[str], ...]:
    """Return what rows draw the plates of a shell without a mouth into, said or not.

    A row that comes round to where it began, and does not lay its plates flat on each other, shuts
    them all round with the others.
    """
    round_ = {line.id for line in cut.lines if line.closed}
    drawn = any(row.id in round_ and any(link.draws for link in row.links) for row in rows)
    shut = (frozenset(row.id for row in rows),) if drawn else ()
    return cut.closures or shut


def _rim(mouth: Mouth, held: Girths) -> Rim:
    """Return a rim with its length free of waves: no level line just inside it is longer."""
    rim = mouth.rim
    return replace(rim, even_mm=min(rim.length_mm, *held.near_mm, pi * rim.opening_mm))


def _row(line: Line, between: tuple[Link, ...], gaps: tuple[Gap, ...]) -> Row:
    at_mm = [0.0]
    for one, other in pairwise(line.rungs):
        at_mm.append(at_mm[-1] + (span_mm(one, other) or 0.0))
    parts = dict.fromkeys(part for rung in line.rungs for (part, _), _ in rung.legs)
    return Row(
        id=line.id,
        name=line.name,
        joints=tuple(rung.joint for rung in line.rungs),
        at_mm=tuple(at_mm),
        parts=tuple(parts),
        links=between,
        spans=_spans(line, at_mm, between),
        gaps=gaps,
    )


def _plates(line: Line) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield the joints of a row with the plates that each passes, as the row lists them."""
    held = [(rung.joint, {part for (part, _), _ in rung.legs}) for rung in line.rungs]
    every = dict.fromkeys(part for rung in line.rungs for (part, _), _ in rung.legs)
    for joint, parts in held:
        yield joint, tuple(part for part in every if part in parts)


def _spans(
    line: Line, at_mm: list[float], between: tuple[Link, ...]
) -> tuple[tuple[float, ...], ...]:
    """Return of each link where the joints are that make it; empty where each joint makes all."""
    made = [
        {tuple(sorted((one, other))) for ((one, _), _), ((other, _), _) in pairwise(rung.legs)}
        for rung in line.rungs
    ]
    spans = tuple(
        tuple(at for at, pairs in zip(at_mm, made, strict=True) if (link.one, link.other) in pairs)
        for link in between
    )
    return spans if any(len(span) < len(at_mm) for span in spans) else ()
