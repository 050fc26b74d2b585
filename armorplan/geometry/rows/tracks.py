"""Rows and single rivets that join the same two stiff parts, and how they lie to each other."""

from collections import defaultdict
from dataclasses import dataclass

from armorplan.geometry.rows.drawn import centres
from armorplan.geometry.rows.faults import BundlesRead
from armorplan.geometry.rows.loose import lone_joints
from armorplan.geometry.rows.shear import Lie, lie, runs_against
from armorplan.geometry.widths import LIMP
from armorplan.pattern.parts import Hole
from armorplan.pattern.pattern import Pattern

_LEAST = 2
_TAPER = 0.7
"""Rows that lie at more than about 45° to each other are no two rows side by side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """A row, or a single rivet, that joins two parts."""

    name: str
    joints: tuple[str, ...]
    sewn: bool
    on_outer: tuple[Hole, ...]
    on_inner: tuple[Hole, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pairing:
    """Two tracks of two parts, and how the second lies to the first on either."""

    outer: str
    inner: str
    first: Track
    second: Track
    on_outer: Lie
    on_inner: Lie

    @property
    def shift_mm(self) -> float:
        """How far too far along the second row lies on the inner part, in mm."""
        return self.on_inner.shear_mm - self.on_outer.shear_mm

    @property
    def wider_mm(self) -> float:
        """How much farther apart the rows lie on the outer part, in mm."""
        return abs(self.on_outer.width_mm) - abs(self.on_inner.width_mm)


def pairings(pattern: Pattern, read: BundlesRead) -> dict[tuple[str, str], list[Pairing]]:
    """Return for each two stiff parts their longest row with each other one beside it."""
    found: dict[tuple[str, str], list[Pairing]] = {}
    for parts, tracks in _tracks(pattern, read).items():
        first, *others = sorted(tracks, key=lambda track: -len(track.joints))
        if beside := [p for other in others if (p := _paired(parts, first, other))]:
            found[parts] = beside
    return found


def _tracks(pattern: Pattern, read: BundlesRead) -> dict[tuple[str, str], list[Track]]:
    """Return the rows and rivets of each two stiff parts; those with a fault of their own tell nothing."""
    found: dict[tuple[str, str], list[Track]] = defaultdict(list)
    for bundle, readings in read:
        for reading in readings:
            run = reading.run
            stiff = not any(pattern.part(row.part).kind in LIMP for row in (run.first, run.second))
            if stiff and run.first.part != run.second.part and not reading.faults:
                found[run.first.part, run.second.part].append(
                    Track(
                        name=bundle.name,
                        joints=run.joints,
                        sewn=bundle.sewn,
                        on_outer=run.on_first,
                        on_inner=run.on_second,
                    )
                )
    for (outer, inner), joint, holes in lone_joints(pattern):
        if (outer, inner) in found:
            found[outer, inner].append(
                Track(
                    name=joint,
                    joints=(joint,),
                    sewn=False,
                    on_outer=(holes[0],),
                    on_inner=(holes[1],),
                )
            )
    return {pair: tracks for pair, tracks in found.items() if len(tracks) >= _LEAST}


def _paired(parts: tuple[str, str], first: Track, second: Track) -> Pairing | None:
    rows = [(centres(t.on_outer), centres(t.on_inner)) for t in (first, second)]
    (one_outer, one_inner), (two_outer, two_inner) = rows
    if runs_against(one_outer, two_outer):
        two_outer, two_inner = two_outer[::-1], two_inner[::-1]
    on_outer, on_inner = lie(one_outer, two_outer), lie(one_inner, two_inner)
    if on_outer is None or on_inner is None or set(first.joints) & set(second.joints):
        return None
    if not all(_abreast(each) for each in (on_outer, on_inner)):
        return None
    return Pairing(
        outer=parts[0],
        inner=parts[1],
        first=first,
        second=second,
        on_outer=on_outer,
        on_inner=on_inner,
    )


def _abreast(lies: Lie) -> bool:
    return lies.turn >= _TAPER and abs(lies.shear_mm) < abs(lies.width_mm)
