"""The tables that say how the armour is worn: harness, hardware, straps, checks, suspension."""

from dataclasses import dataclass

from armorplan.files.faults import brief
from armorplan.files.limits import COUNT, LENGTH_OR_NONE
from armorplan.files.option_rows import read_only_with
from armorplan.files.references import Names, check_once, ref, refs
from armorplan.files.tables import Table
from armorplan.files.values import choice, maybe_choice, maybe_text, numbers, text, texts, whole
from armorplan.pattern.parts import Harness, MadeOn
from armorplan.pattern.wearing import CheckTime, FitCheck, HardwareUse, StrapPlace, Suspension
from armorplan.workshop.shelf import Shelf

_LEAST_PIECES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceRow:
    """A strap place with its table, so that faults of its holes can be told at their line."""

    table: Table
    place: StrapPlace


def read_harnesses(top: Table, pieces: Names) -> tuple[Harness, ...]:
    """Return the harnesses, in the order they are written; a piece hangs in one at most."""
    found: list[Harness] = []
    claimed: dict[str, str] = {}
    for key, row in top.table("harness").rows():
        harness = Harness(
            id=key,
            name=text(row, "name"),
            pieces=refs(row, "pieces", pieces, required=True),
            notes=maybe_text(row, "notes") or "",
        )
        if key in pieces.ids:
            row.fault(
                None,
                "id-taken",
                f'"{key}" is already the id of a piece.',
                mend="Give the harness an id of its own: both stand in the ids of steps.",
            )
        if len(harness.pieces) == 1:
            row.fault(
                "pieces",
                "one-piece",
                f'The harness names one piece, "{brief(harness.pieces[0])}".',
                mend="Name all the pieces that hang together, in the order they are hung.",
            )
        for piece in harness.pieces:
            other = claimed.setdefault(piece, key)
            if other != key:
                row.fault(
                    "pieces",
                    "piece-in-two-harnesses",
                    f'The piece "{brief(piece)}" already hangs in "{brief(other)}".',
                    mend="Keep it in one of the two, or make one harness of both.",
                )
        row.finish()
        found.append(harness)
    return tuple(found)


def read_hardware(
    top: Table, parts: Names, *, joints: Names, shelf: Shelf, choices: Names
) -> tuple[HardwareUse, ...]:
    """Return the buckles, rings and loops that straps are put through."""
    uses = Names(what="hardware", where="on the shelf", ids={e.id for e in shelf.hardware})
    found: list[HardwareUse] = []
    for key, row in top.table("hardware").rows():
        use = HardwareUse(
            id=key,
            use=ref(row, "use", uses),
            part=ref(row, "part", parts),
            held_by=refs(row, "held_by", joints),
            count=whole(row, "count", least=1, most=COUNT, default=1),
            notes=maybe_text(row, "notes") or "",
            only_with=read_only_with(row, choices),
        )
        row.finish()
        found.append(use)
    return tuple(found)


def read_strap_places(top: Table, parts: Names, *, choices: Names) -> tuple[PlaceRow, ...]:
    """Return where straps close; whether their holes exist comes later."""
    found: list[PlaceRow] = []
    for key, row in top.table("strap_places").rows():
        holes = texts(row, "holes")
        check_once(row, "holes", holes)
        place = StrapPlace(
            id=key,
            name=text(row, "name"),
            strap=ref(row, "strap", parts),
            meets=ref(row, "meets", parts),
            girth_mm=_girth_mm(row),
            holes=holes,
            notes=maybe_text(row, "notes") or "",
            only_with=read_only_with(row, choices),
        )
        row.finish()
        found.append(PlaceRow(table=row, place=place))
    return tuple(found)


def _girth_mm(row: Table) -> tuple[float, float]:
    ends = numbers(row, "girth_mm", LENGTH_OR_NONE, count=2)
    if ends and not 0 < ends[0] < ends[1]:
        row.fault(
            "girth_mm",
            "no-girth-range",
            f"The girth runs from {ends[0]:g} to {ends[1]:g} mm.",
            mend="Write the least and the most girth it closes round, two numbers above 0.",
        )
    return (ends[0], ends[1]) if ends else (0.0, 0.0)


def read_fit_checks(top: Table, pieces: Names, *, parts: Names) -> tuple[FitCheck, ...]:
    """Return what is looked for at the trials of a piece."""
    found: list[FitCheck] = []
    for key, row in top.table("fit_checks").rows():
        check = FitCheck(
            id=key,
            name=text(row, "name"),
            piece=ref(row, "piece", pieces),
            when=choice(row, "when", CheckTime) or CheckTime.FIT,
            parts=refs(row, "parts", parts),
            notes=maybe_text(row, "notes") or "",
        )
        row.finish()
        found.append(check)
    return tuple(found)


def read_suspensions(top: Table, pieces: Names, *, parts: Names) -> tuple[Suspension, ...]:
    """Return what carries the weight of each piece."""
    found: list[Suspension] = []
    for key, row in top.table("suspensions").rows():
        suspension = Suspension(
            id=key,
            piece=ref(row, "piece", pieces),
            part=ref(row, "part", parts),
            hangs_from=text(row, "hangs_from"),
            made_on=maybe_choice(row, "made_on", MadeOn) or MadeOn.BOTH,
            notes=maybe_text(row, "notes") or "",
        )
        row.finish()
        found.append(suspension)
    return tuple(found)
