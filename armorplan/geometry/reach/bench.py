"""What reach is judged with: the tools that close each joint, and the numbers of the bench."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from armorplan.geometry.reach.threaded import threaded_spots
from armorplan.geometry.stacks import foot_of
from armorplan.geometry.widths import STIFF
from armorplan.pattern.joining import Joint, JointKind
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants
from armorplan.workshop.shelf import Shelf, ToolEntry, TreatmentKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """Tools and numbers that margins are reckoned with.

    Attributes:
        tools: by joint, the tools that close it and whose reach is known, by id. A joint without
            any is never called *cannot*: the shelf does not tell.
        outside: joints that are closed from outside alone, however deep they lie: laces, and what a
            tool of the shelf serves so. They have no tools that have to get in.
        unsure: joints that are never called *cannot*: how far a tool for them gets in is not known,
            or their fastener is not on the shelf, so that what closes it is not known, or their
            place is found on the wearer only.
        finished: joints whose plates all get a finish: their mouths are squashed less.
        row_gape: mm that an open row gapes for each mm along it to the nearest joint made.
        squash_raw: how much wider a mouth is squashed before its finish, times its width.
        squash_finished: the same after the finish.
        hand_depth_mm: up to here on a shaped part that stands open work is as at hand.
        curved_effort: minutes on a shaped part, times those on the flat bench; never below 1.
        inside_effort: the same inside, at the tool's full reach; never below the one before.
        end_effort: the same where the tool only just reaches; never below the one before.
    """

    tools: Mapping[str, tuple[ToolEntry, ...]]
    outside: frozenset[str] = frozenset()
    unsure: frozenset[str] = frozenset()
    finished: frozenset[str] = frozenset()
    row_gape: float = 0.35
    squash_raw: float = 1.3
    squash_finished: float = 1.15
    hand_depth_mm: float = 40.0
    curved_effort: float = 1.25
    inside_effort: float = 2.0
    end_effort: float = 3.0

    def squash(self, joint: str) -> float:
        """Return how much wider the opening to a joint is squashed, times its width."""
        return self.squash_finished if joint in self.finished else self.squash_raw

    def effort(self, along_mm: float, reach_mm: float, *, enclosed: bool = False) -> float:
        """Return what a joint costs so far inside, times its minutes on the flat bench.

        It rises in a straight line from the depth of a hand to the reach of the tool; in a shape
        that is shut round, from its opening on.
        """
        from_mm = 0.0 if enclosed else self.hand_depth_mm
        if along_mm <= from_mm or reach_mm <= from_mm:
            return self.curved_effort
        share = (along_mm - from_mm) / (reach_mm - from_mm)
        return self.curved_effort + (self.inside_effort - self.curved_effort) * min(share, 1.0)


def bench_of(pattern: Pattern, shelf: Shelf) -> Bench:
    """Return the bench for a pattern: of the shelf's tools those that serve each joint."""
    numbers = shelf.constants
    curved = max(1.0, numbers.curved_effort.value)
    inside = max(curved, numbers.inside_effort.value)
    outside = frozenset(each.id for each in pattern.joints if _is_closed_outside(each, shelf))
    return Bench(
        tools={
            each.id: () if each.id in outside else _tools_for(each, shelf)
            for each in pattern.joints
        },
        outside=outside,
        unsure=frozenset(each.id for each in pattern.joints if _is_unsure(each, shelf)),
        finished=_finished(pattern, shelf),
        row_gape=max(0.0, numbers.row_gape.value),
        squash_raw=_squash(numbers, raw=True),
        squash_finished=_squash(numbers, raw=False),
        hand_depth_mm=numbers.hand_depth.value,
        curved_effort=curved,
        inside_effort=inside,
        end_effort=max(inside, numbers.end_effort.value),
    )


def _squash(numbers: Constants, *, raw: bool) -> float:
    return max(1.0, (numbers.squash_raw if raw else numbers.squash_finished).value)


def _tools_for(joint: Joint, shelf: Shelf) -> tuple[ToolEntry, ...]:
    known = (tool for tool in _serving(joint, shelf) if tool.reach_mm is not None)
    return tuple(sorted(known, key=lambda tool: tool.id))


def _serving(joint: Joint, shelf: Shelf) -> Iterator[ToolEntry]:
    fastener = shelf.fastener(joint.fastener)
    foot = "" if fastener is None else foot_of(fastener)
    for tool in shelf.tools:
        fits = joint.kind.value in tool.serves and (not tool.feet or foot in tool.feet)
        if fits and not tool.takes_out:
            yield tool


def of_unknown_reach(joint: Joint, shelf: Shelf) -> tuple[ToolEntry, ...]:
    """Return the tools that close a joint, and nobody said how far they get in."""
    serving = _serving(joint, shelf)
    return tuple(tool for tool in serving if tool.reach_mm is None and not tool.outside)


def _is_closed_outside(joint: Joint, shelf: Shelf) -> bool:
    """Tell whether a joint is closed from outside: a lace is drawn through, like a boot's."""
    if joint.kind is JointKind.LACE:
        return True
    return any(tool.outside and tool.reach_mm is None for tool in _serving(joint, shelf))


def _is_unsure(joint: Joint, shelf: Shelf) -> bool:
    """Tell whether a tool might serve whose reach is not known, or whose foot; or where it lies."""
    unknown = joint.placed_on_wearer or of_unknown_reach(joint, shelf)
    return bool(unknown) or is_foot_unknown(joint, shelf)


def is_foot_unknown(joint: Joint, shelf: Shelf) -> bool:
    """Tell whether a tool might serve that the fastener's foot, were it known, would let in."""
    footed = any(tool.feet and joint.kind.value in tool.serves for tool in shelf.tools)
    return footed and shelf.fastener(joint.fastener) is None


def _finished(pattern: Pattern, shelf: Shelf) -> frozenset[str]:
    """Return joints all of whose plates get a finish."""
    coated: set[str] = set()
    for treatment in pattern.treatments:
        entry = shelf.treatment(treatment.use)
        if entry is not None and entry.kind is TreatmentKind.FINISH:
            coated.update(treatment.parts)
    found = set()
    for joint in pattern.joints:
        plates = [p for p in pattern.stack_parts(joint.id) if pattern.part(p).kind in STIFF]
        plates = plates or [part for part, _ in threaded_spots(pattern).get(joint.id, ())]
        if plates and coated.issuperset(plates):
            found.add(joint.id)
    return frozenset(found)
