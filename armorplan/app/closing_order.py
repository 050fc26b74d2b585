"""A build closed joint by joint in its own order: what is in reach after each step."""

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache

from armorplan.app.laid_sides import turner
from armorplan.app.reach_rows import (
    JointReach,
    Opening,
    ReachFrame,
    ReachStop,
    RowReach,
    RowsInWay,
    ShouldStop,
    WayIn,
)
from armorplan.app.reach_ways import opening_of, way_legs
from armorplan.assembly.model import Assembly, Side, SidedJoint
from armorplan.geometry.reach.model import Margin, ReachNet, Row, Shell, Standing, Way
from armorplan.pattern.parts import Point
from armorplan.rules.reach_sides import Sides, met_on, set_on, sides_in
from armorplan.steps.model import Work

NEVER = 10**9
"""The stop at which a joint is set that no step sets."""
FRAMES_KEPT = 32
"""So many moments of an order are kept: those that a slider drawn to and fro comes back to."""
MarginOf = Callable[[str, frozenset[str]], Margin]
"""How a joint can be set once others are made; plain ids."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Barring:
    """Rows of the net that together put a joint into a worse standing."""

    rows: frozenset[str]
    after: Standing
    along_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reckoning:
    """What the shapes and the bench say of reach; all ids plain, without a side.

    Attributes:
        margin_of: how a joint can be set.
        barred: by joint, what together is in its way.
        tool_names: by tool.
        row_gape: mm that an open row gapes for each mm along it to the nearest joint made.
    """

    net: ReachNet
    margin_of: MarginOf
    barred: Mapping[str, tuple[Barring, ...]]
    tool_names: Mapping[str, str]
    row_gape: float


@dataclass(frozen=True, slots=True)
class _State:
    """What is made of a shell at a moment, plain ids, and the margins that were asked for then."""

    made: frozenset[str]
    margins: dict[str, Margin] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _InOrder:
    """The joints of a shell on one side, as they are set, and at which stop each is."""

    joints: tuple[str, ...]
    stops: tuple[int, ...]


class ClosingOrder:
    """Fulfils ``reach_rows.ReachTrack``; of what was reckoned the latest moments are kept."""

    def __init__(
        self, assembly: Assembly, work: Work, order: Iterable[str], reckoning: Reckoning
    ) -> None:
        self._assembly = assembly
        self._work = work
        self._known = reckoning
        self.stops = tuple(_stops(work, order))
        self._set_at = {j: at for at, stop in enumerate(self.stops) for j in stop.joints}
        self._frame = lru_cache(maxsize=FRAMES_KEPT)(self._fresh_frame)
        shells = len(Side) * len(reckoning.net.shells)
        self._state = lru_cache(maxsize=2 * FRAMES_KEPT + shells)(self._fresh_state)

    @property
    def tool_names(self) -> Mapping[str, str]:
        """The tools by id, in a maker's words."""
        return self._known.tool_names

    # --- one moment of the order --------------------------------------------------------------

    def frame(self, at: int) -> ReachFrame:
        """Return how all stands once the first ``at`` stops are done."""
        return self._frame(at)

    def _fresh_frame(self, at: int) -> ReachFrame:
        joints = tuple(self._joint(joint, at) for joint in self._assembly.joints)
        lost = (j.id for j in joints if j.worse and j.standing is Standing.CANNOT)
        coming = self.stops[at].joints if at < len(self.stops) else ()
        return ReachFrame(
            at=at, joints=joints, rows=tuple(self._rows(at)), lost=tuple(lost), coming=coming
        )

    def _joint(self, joint: SidedJoint, at: int) -> JointReach:
        now = self._margin(joint, at)
        before = self._margin(joint, at - 1) if at else now
        is_worse = now is not None and before is not None and now.standing > before.standing
        is_set = self._set_at.get(joint.id, NEVER) < at
        return JointReach(id=joint.id, is_set=is_set, margin=now, worse=is_worse)

    def _margin(self, joint: SidedJoint, at: int) -> Margin | None:
        shell = self._known.net.shell_of(joint.joint.id)
        if shell is None:
            return None
        plain, order = joint.joint.id, self._shells[shell.id, joint.side]
        state = self._state(shell.id, joint.side, bisect_left(order.stops, at))
        if plain not in state.margins:
            state.margins[plain] = self._known.margin_of(plain, state.made - {plain})
        return state.margins[plain]

    def _fresh_state(self, shell: str, side: Side, count: int) -> _State:
        """Return the state of a shell on a side once so many of its joints are set."""
        return _State(frozenset(self._shells[shell, side].joints[:count]))

    @cached_property
    def _shells(self) -> Mapping[tuple[str, Side], _InOrder]:
        return {
            (shell.id, side): self._in_order(shell, side)
            for shell in self._known.net.shells.values()
            for side in Side
        }

    def _in_order(self, shell: Shell, side: Side) -> _InOrder:
        inside = dict.fromkeys((*shell.seats, *(j for row in shell.rows for j in row.joints)))
        places = {plain: set_on(self._sided, plain, side, self._set_at) for plain in inside}
        set_at = {plain: NEVER if at is None else at for plain, at in places.items()}
        joints = tuple(sorted(inside, key=lambda plain: set_at[plain]))
        return _InOrder(joints, tuple(set_at[plain] for plain in joints))

    @cached_property
    def _sided(self) -> Sides:
        return sides_in(self._assembly)

    # --- rows ---------------------------------------------------------------------------------

    def _rows(self, at: int) -> Iterator[RowReach]:
        for shell in self._known.net.shells.values():
            for row in shell.rows:
                for side in self._sides_of(row):
                    yield self._row(row, side, at)

    def _sides_of(self, row: Row) -> tuple[Side, ...]:
        met = {joint.side for name in row.joints for joint in self._sided.get(name, ())}
        pair = tuple(side for side in (Side.LEFT, Side.RIGHT) if side in met)
        return pair or ((Side.SINGLE,) if met else ())

    def _row(self, row: Row, side: Side, at: int) -> RowReach:
        found = [
            (on[0].id, along)
            for name, along in zip(row.joints, row.at_mm, strict=True)
            if (on := met_on(self._sided, name, side))
        ]
        is_set = tuple(self._set_at.get(joint, NEVER) < at for joint, _ in found)
        made = [along for (_, along), is_made in zip(found, is_set, strict=True) if is_made]
        slope = self._known.row_gape
        return RowReach(
            id=side.tag(row.id),
            name=row.name,
            joints=tuple(joint for joint, _ in found),
            is_set=is_set,
            gapes_mm=tuple(
                min((slope * abs(along - there) for there in made), default=None)
                for _, along in found
            ),
        )

    # --- one joint ----------------------------------------------------------------------------

    def way_in(self, joint: str, at: int) -> WayIn | None:
        """Return how a tool gets to a joint; ``None`` for one that is not known."""
        sided = next((one for one in self._assembly.joints if one.id == joint), None)
        if sided is None:
            return None
        reach, step = self._joint(sided, at), self._work.setting(joint)
        told = WayIn(joint=joint, title=step.title if step else joint, reach=reach)
        shell = self._known.net.shell_of(sided.joint.id)
        if shell is None or reach.margin is None:
            return told
        way, tool = reach.margin.way, reach.margin.tool
        barred = self._known.barred.get(sided.joint.id, ())
        opening = self._opening(sided, shell, reach.margin, at)
        return replace(
            told,
            legs=tuple(self._legs(sided, shell, way)) if way else (),
            opening=opening,
            tool=self._known.tool_names.get(tool, tool),
            barred_by=tuple(self._in_way(one, sided.side) for one in barred),
        )

    def _opening(self, joint: SidedJoint, shell: Shell, margin: Margin, at: int) -> Opening | None:
        """Return where a tool goes in then, with the side put in."""
        plain, order = joint.joint.id, self._shells[shell.id, joint.side]
        made = self._state(shell.id, joint.side, bisect_left(order.stops, at)).made - {plain}
        found = opening_of(shell, margin, joint=plain, made=made)
        return replace(found, row=joint.side.tag(found.row)) if found and found.row else found

    def _in_way(self, bar: Barring, side: Side) -> RowsInWay:
        names = sorted(self._row_names.get(row, row) for row in bar.rows)
        rows = frozenset(side.tag(row) for row in bar.rows)
        return RowsInWay(rows=rows, names=tuple(names), standing=bar.after, along_mm=bar.along_mm)

    @cached_property
    def _row_names(self) -> Mapping[str, str]:
        shells = self._known.net.shells.values()
        return {row.id: row.name for shell in shells for row in shell.rows}

    def _legs(self, joint: SidedJoint, shell: Shell, way: Way) -> Iterator[tuple[Point, Point]]:
        turn = turner(self._assembly.pattern)
        sides = (joint.side, *Side)
        parts = {(part.part.id, part.side): part for part in self._assembly.parts}
        for part, start, end in way_legs(self._assembly.pattern, shell, joint.joint.id, way):
            laid = next(parts[part, side] for side in sides if (part, side) in parts)
            yield turn(laid)(start), turn(laid)(end)

    # --- the whole order ----------------------------------------------------------------------

    def lost(self, should_stop: ShouldStop) -> Mapping[int, tuple[str, ...]]:
        """Return which joints are out of reach from which stop on, by the number of stops done.

        Setting another joint never brings a tool closer, so each stop is found by halving. What
        is found until it is told to stop is returned.
        """
        found: dict[int, tuple[str, ...]] = {}
        for joint in self._assembly.joints:
            if should_stop():
                break
            at = self._lost_at(joint)
            if at is not None:
                found[at] = (*found.get(at, ()), joint.id)
        return dict(sorted(found.items()))

    def _lost_at(self, joint: SidedJoint) -> int | None:
        low, high = 0, len(self.stops)
        if not self._is_lost(joint, high):
            return None
        while low < high:
            middle = (low + high) // 2
            low, high = (low, middle) if self._is_lost(joint, middle) else (middle + 1, high)
        return low

    def _is_lost(self, joint: SidedJoint, at: int) -> bool:
        margin = self._margin(joint, at)
        return margin is not None and margin.standing is Standing.CANNOT


def _stops(work: Work, order: Iterable[str]) -> Iterator[ReachStop]:
    for step in (work.step(one) for one in order):
        joints = work.sets(step)
        if joints:
            yield ReachStop(step=step.id, title=step.title, joints=joints)
