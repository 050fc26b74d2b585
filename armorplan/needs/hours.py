"""Hours by kind of work and by piece, and the tools that work asks for."""

from collections.abc import Callable
from dataclasses import dataclass

from armorplan.needs.model import HoursNeed, ToolNeed
from armorplan.steps.model import Step, StepKind, Work
from armorplan.steps.naming import kind_slug
from armorplan.workshop.shelf import Shelf

GROUPS: dict[str, tuple[StepKind, ...]] = {
    "Paper and laying out": (
        StepKind.MEASURE,
        StepKind.MOCK_UP,
        StepKind.LAY_OUT,
        StepKind.NUMBER,
    ),
    "Cutting and edges": (
        StepKind.CUT,
        StepKind.FREE,
        StepKind.CHAR,
        StepKind.BEVEL,
        StepKind.SKIVE,
        StepKind.PUNCH,
        StepKind.PREPARE_STRAP,
        StepKind.BURNISH,
    ),
    "Tooling and shaping": (
        StepKind.CASE,
        StepKind.TOOL,
        StepKind.FORM,
        StepKind.HARDEN,
        StepKind.FORM_DRY,
    ),
    "Dye, oil and finish": (
        StepKind.CLEAN,
        StepKind.DYE,
        StepKind.OIL,
        StepKind.MASK,
        StepKind.FINISH,
    ),
    "Joining": (
        StepKind.ROUGHEN,
        StepKind.MOUNT,
        StepKind.THREAD,
        StepKind.GLUE,
        StepKind.STITCH,
        StepKind.RIVET,
        StepKind.SCREW,
        StepKind.LACE,
    ),
    "Fitting and checking": (
        StepKind.DRY_FIT,
        StepKind.CHECK,
        StepKind.MARK,
        StepKind.PUNCH_MARKED,
        StepKind.FIT,
        StepKind.INSPECT,
        StepKind.PACK,
    ),
    "Ways back": (StepKind.MEND,),
    "Your own steps": (StepKind.OWN,),
}
"""Kinds of step under the heading a maker counts hours by; drying counts with what is wet."""
_GROUP = {kind: name for name, kinds in GROUPS.items() for kind in kinds}


def _wet_kind(work: Work, step: Step) -> StepKind:
    """Return the kind a step counts as: drying and watching as the kind of the step they follow."""
    if step.after is not None and work.has(step.after):
        return work.step(step.after).kind
    return step.kind


@dataclass(slots=True)
class _Tally:
    steps: int = 0
    hands_on_min: int = 0
    waiting_min: int = 0


def _tallied(work: Work, heading: Callable[[Step], str]) -> dict[str, _Tally]:
    found: dict[str, _Tally] = {}
    for step in work.steps:
        tally = found.setdefault(heading(step), _Tally())
        if step.attended:
            tally.steps += 1
            tally.hands_on_min += step.minutes
        elif step.kind is StepKind.DRY:  # Dripping and cure begin with it and are no wait more.
            tally.waiting_min += step.minutes
    return found


def _row(name: str, tally: _Tally) -> HoursNeed:
    return HoursNeed(
        name=name,
        steps=tally.steps,
        hands_on_min=tally.hands_on_min,
        waiting_min=tally.waiting_min,
    )


def hours_needs(work: Work) -> tuple[HoursNeed, ...]:
    """Return hands-on and waiting minutes by kind of work, in the order work passes through them."""
    found = _tallied(work, lambda step: _GROUP[_wet_kind(work, step)])
    return tuple(_row(name, found[name]) for name in GROUPS if name in found)


def piece_hours(work: Work, name_of: Callable[[Step], str]) -> tuple[HoursNeed, ...]:
    """Return the same by piece and side, named by ``name_of``; empty where there is one only."""
    found = _tallied(work, name_of)
    if len(found) == 1:
        return ()
    return tuple(_row(name, tally) for name, tally in found.items())


def tool_needs(work: Work, shelf: Shelf) -> tuple[ToolNeed, ...]:
    """Return tools of the shelf that serve a kind of step here, then those only steps name.

    A tool that the durations name for another way of working (a cutting machine where all is cut
    by hand) is left out. The maker's own steps name their own.
    """
    kinds = [kind for kind in StepKind if work.of_kind(kind) and kind is not StepKind.OWN]
    in_steps = {step.tool.casefold() for step in work.steps}
    other_way = {entry.tool.casefold() for entry in shelf.durations} - in_steps
    found = []
    for entry in shelf.tools:
        served = tuple(k.value for k in kinds if {k.value, kind_slug(k)} & set(entry.serves))
        if served and entry.name.casefold() not in other_way:
            found.append(ToolNeed(name=entry.name, kinds=served, cautions=entry.cautions))
    covered = {kind for tool in found for kind in tool.kinds}
    only_named: dict[str, dict[str, None]] = {}
    for step in work.steps:
        if step.tool and step.kind.value not in covered:
            only_named.setdefault(step.tool, {})[step.kind.value] = None
    named = (ToolNeed(name=tool, kinds=tuple(served)) for tool, served in only_named.items())
    return (*found, *named)
