"""The tables of what the maker adds beside relations: own steps, known corrections."""

from armorplan.files.faults import brief
from armorplan.files.limits import SPOT, WAIT_MIN, WORK_MIN
from armorplan.files.option_rows import read_only_with
from armorplan.files.references import Names, check_once, ref, refs
from armorplan.files.tables import Table
from armorplan.files.values import maybe_text, point, text, texts, whole
from armorplan.pattern.own_work import Correction, OwnStep
from armorplan.pattern.parts import Part

_USUAL_MIN = 5


def read_own_steps(
    top: Table, parts: dict[str, Part], *, pieces: Names, choices: Names
) -> tuple[OwnStep, ...]:
    """Return the steps the maker adds, in the order they are written."""
    of_piece = {
        piece: Names(
            what=f'part of the piece "{brief(piece)}"',
            ids=[part.id for part in parts.values() if part.piece == piece],
        )
        for piece in dict.fromkeys(part.piece for part in parts.values())
    }
    none = Names(what="part of that piece", ids=())
    found: list[OwnStep] = []
    for key, row in top.table("own_steps").rows():
        piece = ref(row, "piece", pieces)
        step = OwnStep(
            id=key,
            name=text(row, "name"),
            piece=piece,
            parts=refs(row, "parts", of_piece.get(piece, none)),
            minutes=whole(row, "minutes", least=0, most=WORK_MIN, default=_USUAL_MIN),
            wait_min=whole(row, "wait_min", least=0, most=WAIT_MIN, default=0),
            tool=maybe_text(row, "tool") or "",
            cautions=texts(row, "cautions"),
            notes=maybe_text(row, "notes") or "",
            only_with=read_only_with(row, choices),
        )
        row.finish()
        found.append(step)
    return tuple(found)


def read_corrections(top: Table) -> tuple[tuple[Table, Correction], ...]:
    """Return the known corrections with their tables; whether their holes exist comes later."""
    found: list[tuple[Table, Correction]] = []
    for key, row in top.table("corrections").rows():
        holes = texts(row, "holes", required=True)
        check_once(row, "holes", holes)
        correction = Correction(
            id=key,
            name=text(row, "name"),
            holes=tuple(dict.fromkeys(holes)),
            move_mm=point(row, "move_mm", SPOT) or (0.0, 0.0),
            notes=maybe_text(row, "notes") or "",
        )
        row.finish()
        found.append((row, correction))
    return tuple(found)
