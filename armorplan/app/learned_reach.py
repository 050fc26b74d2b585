"""What the bench teaches of a tool's reach: it did get to a joint, or it did not."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, inf

from armorplan.app.derived import Derived
from armorplan.app.former_trial import Trial, against_former
from armorplan.app.tried_reach import (
    Tried,
    joint_named,
    made_before,
    tool_named,
    tool_on_shelf,
)
from armorplan.geometry.reach.bench import Bench, is_foot_unknown
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.margins import Gauge, gauges, margin
from armorplan.geometry.reach.model import Standing, Way
from armorplan.geometry.reach.openings import made_at
from armorplan.geometry.reach.words import tool_name
from armorplan.kernel.errors import ArmorplanError
from armorplan.workshop.shelf import ToolEntry

TENTHS = 10
"""A reach is learned to a tenth of a millimetre."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedReach:
    """What the model holds of a joint in a state, and what a trial at the bench says of a tool.

    Attributes:
        joint: plain id.
        tool: id of the tool; empty where the leather lies flat and any serves.
        made: plain ids of the joints that were set before.
        least_mm: a straight tool has to get in so far at least; ``None``: no opening admits it.
        most_mm: it has to get in no further than this; ``None``: no opening admits it as it stands.
        reach_mm: what the tool's reach was taken to be.
        becomes_mm: what it is by the trial; ``None``: nothing follows for it.
        held, follows: both in whole sentences.
        at: the joint behind the slug of its pattern.
        against: that an earlier trial at the same joint said otherwise, and how to have it; empty:
            none did.
    """

    joint: str
    did_reach: bool
    tool: str
    made: tuple[str, ...]
    least_mm: float | None
    most_mm: float | None
    reach_mm: float | None
    becomes_mm: float | None
    held: str
    follows: str
    at: str = ""
    against: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Depth:
    """How far in a joint sits for one tool in one state; ``hollow``: its shell curves inwards."""

    least_mm: float | None
    most_mm: float | None
    hollow: bool


def learned_reach(derived: Derived, tried: Tried) -> LearnedReach:
    """Return what follows from a trial at the bench.

    A tool that did reach has at least the length that a straight tool needs at least. One that did
    not has less than the length that it needs at most; of a shell that curves inwards nothing
    follows then, since the leather may have stopped it, not its length. A joint that is closed
    from outside, or of which it is not known how far in it sits, teaches nothing.

    Raises:
        ArmorplanError: joint or tool are not known, the joint sits in no shell, or the tool does
            not serve it.
    """
    joint, step = joint_named(derived, tried.joint)
    reach = reach_of(derived.pattern, derived.shelf)
    if joint not in reach.net.access:
        message = (
            f"Joint '{joint}' sits in no shell: a tool gets to it from anywhere, so that it tells "
            "nothing of reach. Name a joint of a cop, a lame or a plate."
        )
        raise ArmorplanError(message)
    made = made_before(derived, joint, step, tried)
    silent = _says_nothing(derived, reach.bench, joint, tried)
    if silent:
        tool = tool_on_shelf(derived, joint, tried.tool)
        return _nothing(joint, made, tried, tool, silent)
    # By the shapes alone: a shell that no order sets is just where a trial teaches most.
    found = margin(reach.drawn, joint, made, reach.bench)
    tool = tool_named(derived, joint, tried.tool or found.tool, reach.bench.tools.get(joint, ()))
    if found.standing is Standing.FLAT:
        return _nothing(joint, made, tried, tool, "its leather lies flat and any tool serves")
    gauge = gauges(reach.drawn, reach.bench)[reach.drawn.access[joint].shell]
    depth = _depth(gauge, joint, made, (tool, reach.bench.squash(joint)))
    reach_mm = tool.reach_mm or 0.0
    becomes, follows = _follows(depth, reach_mm, did_reach=tried.did_reach)
    at = f"{derived.pattern.slug}/{joint}"
    trial = Trial(joint=at, did_reach=tried.did_reach, after=len(made), former_mm=reach_mm)
    return LearnedReach(
        joint=joint,
        did_reach=tried.did_reach,
        tool=tool.id,
        made=tuple(sorted(made)),
        least_mm=depth.least_mm,
        most_mm=depth.most_mm,
        reach_mm=tool.reach_mm,
        becomes_mm=becomes,
        held=_state(joint, made, _held(derived, depth, tool)),
        follows=follows,
        at=at,
        against=against_former(tool.source, trial, tool.id, follows=becomes is not None),
    )


def _says_nothing(derived: Derived, bench: Bench, joint: str, tried: Tried) -> str:
    """Return why a joint tells nothing of how far a tool gets in, whatever was tried; or nothing."""
    tool = tool_on_shelf(derived, joint, tried.tool)
    if tool is not None and tool.outside:
        name = tool_name(derived.shelf, tool.id)
        return f"the {name} works from outside, however deep a joint lies"
    if joint in bench.outside:
        return "it is closed from outside, however deep it lies, and no tool has to get in"
    if derived.pattern.joint(joint).placed_on_wearer:
        return "its place is found on the wearer only, so that how far in it sits is not known"
    if is_foot_unknown(derived.pattern.joint(joint), derived.shelf):
        return "which fastener it takes is not known, nor therefore which tools close it"
    if joint in bench.unsure and tool is None:
        return "a tool that may have closed it is of unknown reach; name the one that was used"
    return ""


def _nothing(
    joint: str, made: frozenset[str], tried: Tried, tool: ToolEntry | None, held: str
) -> LearnedReach:
    """Return a trial that teaches nothing of the reach of a tool, and why."""
    return LearnedReach(
        joint=joint,
        did_reach=tried.did_reach,
        tool="" if tool is None else tool.id,
        made=tuple(sorted(made)),
        least_mm=None,
        most_mm=None,
        reach_mm=None if tool is None else tool.reach_mm,
        becomes_mm=None,
        held=_state(joint, made, held),
        follows="Nothing follows for the reach of a tool.",
    )


def _depth(
    gauge: Gauge, joint: str, made: frozenset[str], using: tuple[ToolEntry, float]
) -> _Depth:
    """Return how far in a joint sits by the ways that admit a tool: squashed, and as they stand."""
    tool, squash = using
    state = made_at(gauge.places, made | {joint})
    offers = [(w, gauge.opening_mm(w, state)) for w in gauge.access[joint].ways if w.name != joint]
    wide = [(w, mm) for w, mm in offers if mm > 0]
    return _Depth(
        least_mm=_shortest((w for w, mm in wide if mm * squash >= tool.opening_mm), least=True),
        most_mm=_shortest((w for w, mm in wide if mm >= tool.opening_mm), least=False),
        hollow=gauge.shell.hollow,
    )


def _shortest(ways: Iterable[Way], *, least: bool) -> float | None:
    found = min((way.least_mm if least else way.along_mm for way in ways), default=inf)
    return None if found == inf else found


def _follows(depth: _Depth, reach_mm: float, *, did_reach: bool) -> tuple[float | None, str]:
    """Return what a tool's reach becomes, ``None`` where nothing follows, and say why."""
    return _raised(depth, reach_mm) if did_reach else _lowered(depth, reach_mm)


def _raised(depth: _Depth, reach_mm: float) -> tuple[float | None, str]:
    if depth.least_mm is None:
        return None, (
            "It did reach: nothing follows for its reach, but it goes in through a narrower opening "
            "than the shelf says. Look at its opening_mm."
        )
    if depth.least_mm <= 0:
        return None, (
            "It did reach: nothing follows for its reach, since the shapes do not tell how far it "
            "has to get in at least."
        )
    if depth.least_mm <= reach_mm:
        return None, (
            f"It did reach: nothing follows for its reach, since {reach_mm:g} mm is no less than "
            f"the {_up(depth.least_mm):.1f} mm it needs at least."
        )
    becomes = _up(depth.least_mm)
    return becomes, (
        f"It did reach: its reach is at least {becomes:.1f} mm, not {reach_mm:g} mm as the shelf says."
    )


def _lowered(depth: _Depth, reach_mm: float) -> tuple[float | None, str]:
    said = "It did not reach: nothing follows for its reach, since"
    if depth.most_mm is None:
        return None, f"{said} no opening is as wide as it needs without being squashed."
    if reach_mm < depth.most_mm:
        return (
            None,
            f"{said} up to {_up(depth.most_mm):.1f} mm may be needed and it has {reach_mm:g} mm.",
        )
    if depth.hollow:
        return (
            None,
            f"{said} this shell curves inwards, or may do: the leather can have been in its way.",
        )
    becomes = round(_up(depth.most_mm) - 1 / TENTHS, 1)
    if becomes <= 0:
        return None, f"{said} the joint sits at the opening itself."
    return becomes, (
        f"It did not reach: its reach is below {_up(depth.most_mm):.1f} mm, not {reach_mm:g} mm as the "
        f"shelf says; it is taken as {becomes:.1f} mm."
    )


def _up(mm: float) -> float:
    """Return a length in whole tenths, rounded up: so it is told, and so it is taken."""
    return ceil(mm * TENTHS - 1e-6) / TENTHS


def _held(derived: Derived, depth: _Depth, tool: ToolEntry) -> str:
    name = f"the reach of the {tool_name(derived.shelf, tool.id)} is {tool.reach_mm:g} mm"
    if depth.least_mm is None:
        return f"no opening is left that is {tool.opening_mm:g} mm wide when squashed; {name}"
    most = "" if depth.most_mm is None else f" and at most {_up(depth.most_mm):.1f} mm"
    least = f"{_up(depth.least_mm):.1f} mm"
    return f"a straight tool has to get in at least {least}{most}; {name}"


def _state(joint: str, made: frozenset[str], held: str) -> str:
    others = f"after {len(made)} other joint{'s'[: len(made) > 1]}"
    return f"Joint '{joint}', {others if made else 'with nothing set before it'}: {held}."
