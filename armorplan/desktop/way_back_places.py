"""Where something can have gone wrong: rows, holes and parts of the build, what is chosen first."""

from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

from PySide6.QtCore import QCoreApplication

from armorplan.app.rows import ChecklistRow, Diagram, Grouping, Selection
from armorplan.app.session_protocol import BenchSession
from armorplan.desktop.checklist_rows import OVER, is_heading, is_step
from armorplan.desktop.way_back_talk import Choice
from armorplan.orders.recovery.mistakes import MistakeKind
from armorplan.steps.model import SETS_JOINT

SETTING = frozenset(kind.value for kind in SETS_JOINT)
SEAM = "/seam:"
"""Behind it in the id of a tray stands the seam whose joints the tray holds."""
T = TypeVar("T")


def _say(text: str) -> str:
    return QCoreApplication.translate("way_back", text)


def places_of(
    session: BenchSession, selection: Selection
) -> dict[MistakeKind, tuple[Choice, ...]]:
    """Return the places of each kind, what is chosen before all else; a kind may have none."""
    diagram = session.diagram()
    rows = session.checklist(Grouping.PIECE)
    parts = tuple(_parts(diagram, selection, sided=False))
    found = {
        MistakeKind.CLOSED: tuple(_closed(rows, selection)),
        MistakeKind.WRONG_HOLE: tuple(_holes(diagram, rows, selection)),
        MistakeKind.TWO_ALIKE: tuple(_parts(diagram, selection, sided=True)),
        MistakeKind.WRONG_COLOUR: tuple(_dyed(session, parts)),
        MistakeKind.ROW_OFF: tuple(_seams(rows, selection)),
        MistakeKind.SPOILT: parts,
    }
    likely = session.way_back.mistake_kinds(selection.steps, selection.parts)
    kinds = dict.fromkeys((*likely, *session.way_back.mistake_kinds()))
    return {kind: found[kind] for kind in kinds}


def _dyed(session: BenchSession, parts: Iterable[Choice]) -> Iterator[Choice]:
    """Yield the parts that have a colour which can be wrong."""
    for part in parts:
        if MistakeKind.WRONG_COLOUR in session.way_back.mistake_kinds((), part.about):
            yield part


def _closed(rows: tuple[ChecklistRow, ...], selection: Selection) -> Iterator[Choice]:
    """Yield the chosen step, then trays: what still counts as open of those that set joints."""
    over = {step for row in rows if is_step(row) and row.state in OVER for step in row.steps}
    sets = {row.id for row in rows if is_step(row) and row.joints and row.kind in SETTING}
    setting = [row for row in rows if sets.issuperset(row.steps) and not is_heading(row)]
    chosen = [row for row in setting if is_step(row) and row.id in selection.steps]
    trays = [row for row in setting if not is_step(row)]
    parents = {row.parent for row in chosen}
    pieces = {row.id: row.title for row in rows if is_heading(row)}
    names = {row.id: row.title for row in setting if is_step(row)}
    for row in (*chosen, *_first(trays, lambda tray: tray.id in parents)):
        still_open = tuple(step for step in row.steps if step not in over)
        if still_open:
            more = pieces.get(row.parent or "", "")
            each = tuple(Choice(key=s, text=names[s], about=(s,)) for s in still_open)
            yield Choice(key=row.id, text=row.title, more=more, about=still_open, each=each)


def _seams(rows: tuple[ChecklistRow, ...], selection: Selection) -> Iterator[Choice]:
    trays = [row for row in rows if seam_of(row)]
    pieces = {row.id: row.title for row in rows if is_heading(row)}
    for row in _first(trays, lambda tray: bool(set(tray.steps) & set(selection.steps))):
        yield Choice(
            key=row.id,
            text=row.title,
            more=pieces.get(row.parent or "", ""),
            about=(seam_of(row),),
        )


def seam_of(row: ChecklistRow) -> str:
    """Return the sided id of the seam whose joints a tray holds; empty for any other row."""
    return row.id.rpartition(SEAM)[2].partition(":")[0] if SEAM in row.id else ""


def _parts(diagram: Diagram, selection: Selection, *, sided: bool) -> Iterator[Choice]:
    parts = [part for part in diagram.parts if part.side or not sided]
    several = len({part.piece for part in parts}) > 1
    for part in _first(parts, lambda part: part.id in selection.parts):
        piece = part.piece.replace("_", " ") if several else ""
        yield Choice(key=part.id, text=part.name, more=piece, about=(part.id,))


def _holes(
    diagram: Diagram, rows: tuple[ChecklistRow, ...], selection: Selection
) -> Iterator[Choice]:
    """Yield the holes of the chosen parts, of all where none is chosen; those of chosen joints first."""
    names = {part.id: part.name for part in diagram.parts}
    sides = {part.id: part.side for part in diagram.parts}
    titles = {joint: row.title for row in rows if is_step(row) for joint in row.joints}
    holes = [h for h in diagram.holes if not selection.parts or h.part in selection.parts]
    for hole in _first(holes, lambda hole: hole.joint in selection.joints):
        part = names.get(hole.part, hole.part)
        joint = titles.get(hole.joint or "", _say("nothing goes through it"))
        text = _say("{0}: {1}").format(part, joint)
        # A drawing names a hole with the side of its part, which the part's own id tells already.
        plain = hole.id.removesuffix(f".{side}") if (side := sides.get(hole.part)) else hole.id
        more = _say("{0} mm").format(f"{hole.diameter_mm:g}")
        # Only a hole that nothing goes through is told from its like by the drawing's name for it.
        more = more if hole.joint in titles else f"{plain}, {more}"
        key = f"{hole.part}/{plain}"
        yield Choice(key=key, text=text, more=more, about=(key,))


def _first(found: Iterable[T], wanted: Callable[[T], bool]) -> list[T]:
    """Return what is wanted first, each in the order it stood in."""
    return sorted(found, key=lambda one: not wanted(one))
