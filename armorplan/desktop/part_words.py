"""Sentences about parts and fasteners, for lists, cards and screen readers."""

from PySide6.QtCore import QCoreApplication

from armorplan.app.rows import Diagram, DiagramJoint, DiagramPart
from armorplan.desktop.glyphs import state_word
from armorplan.desktop.twin_model import TwinRow
from armorplan.desktop.up_words import up_short, up_spoken

PART = "part:"
JOINT = "joint:"


def _tr(text: str) -> str:
    return QCoreApplication.translate("PartWords", text)


def counted(count: int, one: str, many: str) -> str:
    """Return ``one`` or ``many``, both already translated, with ``{n}`` filled in."""
    return (one if count == 1 else many).format(n=count)


def part_row(part: DiagramPart, fasteners: int) -> TwinRow:
    """Return a part as a row: name, kind, piece, its fasteners, and which way is up on it."""
    held = counted(fasteners, _tr("{n} fastener"), _tr("{n} fasteners"))
    kind = QCoreApplication.translate("PartKind", part.kind)
    spoken = _tr("{name}, {kind} of the {piece}, {held}, {up}").format(
        name=part.name, kind=kind, piece=part.piece, held=held, up=up_spoken(part)
    )
    cell = f"{part.name} – {kind}, {held}, {up_short(part)}"
    return TwinRow(key=PART + part.id, cells=(cell,), spoken=spoken)


def joint_row(joint: DiagramJoint) -> TwinRow:
    """Return a fastener as a row: what it is, its layers from outside in, and its state."""
    through = stack_words(joint)
    state = state_word(joint.state)
    spoken = _tr("{fastener}, {through}: {state}").format(
        fastener=joint.fastener, through=through, state=state
    )
    cell = f"    {joint.fastener} – {through} – {state}"
    return TwinRow(key=JOINT + joint.id, cells=(cell,), spoken=spoken)


def stack_words(joint: DiagramJoint) -> str:
    """Return the layers a fastener passes, the outermost first."""
    return _tr("through {layers}").format(layers=_tr(" over ").join(joint.stack))


def diagram_rows(diagram: Diagram) -> tuple[TwinRow, ...]:
    """Return every part in the diagram's order, each followed by the heads that show on it."""
    passing: dict[str, int] = {}
    heads: dict[str, list[DiagramJoint]] = {}
    for joint in diagram.joints:
        heads.setdefault(joint.parts[0], []).append(joint)
        for part_id in joint.parts:
            passing[part_id] = passing.get(part_id, 0) + 1
    rows: list[TwinRow] = []
    for part in diagram.parts:
        rows.append(part_row(part, passing.get(part.id, 0)))
        rows += [joint_row(joint) for joint in heads.get(part.id, ())]
    return tuple(rows)
