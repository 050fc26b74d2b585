"""The tables of how the armour moves: bends of the limb, shared by chains of pivots."""

from collections.abc import Collection
from dataclasses import dataclass
from itertools import pairwise
from math import fsum

from armorplan.files.faults import brief
from armorplan.files.joining_rows import JointRow
from armorplan.files.limits import BEND, SHARE
from armorplan.files.option_rows import read_only_with
from armorplan.files.references import Names, refs
from armorplan.files.tables import Table
from armorplan.files.values import maybe_text, number, numbers, text
from armorplan.kernel.units import near
from armorplan.pattern.joining import Motion
from armorplan.pattern.moving import Movement
from armorplan.pattern.parts import Part

_LEAST_PARTS = 2
_SUM_DEG = 0.05
"""Shares are written to a tenth of a degree at best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MovementRow:
    """A movement with its table, so that a pivot that is not there can be told at its line."""

    table: Table
    movement: Movement


def read_movements(top: Table, parts: Names, choices: Names) -> tuple[MovementRow, ...]:
    """Return the movements, in the order they are written; pivots are looked for later."""
    found: list[MovementRow] = []
    for key, row in top.table("movements").rows():
        named = refs(row, "parts", parts, required=True)
        angle_deg = number(row, "angle_deg", BEND)
        movement = Movement(
            id=key,
            name=text(row, "name"),
            parts=named,
            angle_deg=angle_deg,
            shares_deg=_shares_deg(row, len(named), angle_deg),
            notes=maybe_text(row, "notes") or "",
            only_with=read_only_with(row, choices),
        )
        if len(named) == 1:
            row.fault(
                "parts",
                "movement-of-one-part",
                f'The movement names one part, "{brief(named[0])}"; two or more turn.',
                mend="Name the plates and lames along the limb, from its upper to its lower end.",
            )
        row.finish()
        found.append(MovementRow(table=row, movement=movement))
    return tuple(found)


def _shares_deg(row: Table, parts: int, angle_deg: float) -> tuple[float, ...]:
    """Return how far each pair turns, as written; empty where all turn alike."""
    if not row.has("shares_deg") or parts < _LEAST_PARTS:
        row.raw("shares_deg")
        return ()
    shares = numbers(row, "shares_deg", SHARE, count=parts - 1, rising=False)
    total = fsum(shares)
    if shares and angle_deg and not near(total, angle_deg, within_mm=_SUM_DEG):
        row.fault(
            "shares_deg",
            "shares-do-not-sum",
            f"The shares make {total:g} degrees together, and angle_deg is {angle_deg:g}.",
            mend="Write shares that make angle_deg together, one for each pair of neighbours.",
        )
    return shares


def check_pivots(
    rows: Collection[MovementRow], joints: Collection[JointRow], parts: Collection[Part]
) -> None:
    """Warn of neighbours in a movement that no turning joint holds.

    Where a hole of a turning joint lies in no part, which is told elsewhere, nothing is said of
    pivots that are missing: it may be that one.
    """
    lie_in = {hole.id: part.id for part in parts for hole in part.holes}
    stacks = [row.joint.stack for row in joints if row.joint.motion is Motion.TURNING]
    if any(hole not in lie_in for stack in stacks for hole in stack):
        return
    held = [frozenset(lie_in[hole] for hole in stack) for stack in stacks]
    known = {part.id for part in parts}
    for row in rows:
        for pair in pairwise(row.movement.parts):
            if known.issuperset(pair) and not any(each.issuperset(pair) for each in held):
                _tell_no_pivot(row, pair)


def _tell_no_pivot(row: MovementRow, pair: tuple[str, str]) -> None:
    upper, lower = map(brief, pair)
    row.table.faults.warning(
        "movement-without-pivot",
        f'No turning joint holds "{upper}" and "{lower}", which follow each other in the '
        f'movement "{brief(row.movement.id)}".',
        mend='Write motion = "turning" at their pivots, or name the parts in their order along '
        "the limb.",
        place=row.table.place("parts"),
        about=(row.movement.id, *pair),
    )
