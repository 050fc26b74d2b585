"""The parts of a build at full size: each on its side, mirrored where that asks for it."""

from armorplan.app.derived import Derived
from armorplan.app.diagram_rows import DiagramRows
from armorplan.app.laid_sides import turner
from armorplan.app.rows import BenchState
from armorplan.assembly.model import Side, SidedPart
from armorplan.pattern.joining import FormKind
from armorplan.pattern.parts import Part
from armorplan.sheets.bench_sheet_model import DrawnHole, FullLine, FullPart


def full_parts(derived: Derived) -> tuple[FullPart, ...]:
    """Return all parts of a build, in the pattern's order, side by side."""
    diagram = DiagramRows(derived).at(lambda _step: BenchState.WAITING)
    holes: dict[str, list[DrawnHole]] = {}
    for hole in diagram.holes:
        drawn = DrawnHole(centre=hole.centre, diameter_mm=hole.diameter_mm)
        holes.setdefault(hole.part, []).append(drawn)
    pieces = {piece.id: piece.name for piece in derived.pattern.pieces}
    found = []
    for shown, sided in zip(diagram.parts, derived.assembly.parts, strict=True):
        found.append(
            FullPart(
                name=sided.part.name,
                side="" if sided.side is Side.SINGLE else sided.side.value,
                piece=pieces.get(sided.part.piece, sided.part.piece),
                outline=shown.outline,
                slots=shown.slots,
                holes=tuple(
                    hole
                    for hole, own in zip(holes.get(shown.id, ()), sided.part.holes, strict=True)
                    if not own.travel_mm
                ),
                words=_words(derived, sided),
                up_deg=shown.up_deg,
                backbone_deg=_backbone(sided),
                lines=_lines(derived, sided),
            )
        )
    return tuple(sorted(found, key=lambda part: (part.piece, part.side)))


def _words(derived: Derived, sided: SidedPart) -> tuple[str, ...]:
    part = sided.part
    made = next((m.leather for m in derived.pattern.materials if m.id == part.material), "")
    leather = derived.shelf.leather(made)
    named = leather.name if leather else part.material
    count = (f"cut {part.count}",) if part.count > 1 else ()
    return (*count, f"{round(part.thickness_mm, 1):g} mm", _face(part), named)


def _face(part: Part) -> str:
    """Return which face is the one printed: the outer one, unless it is drawn from inside."""
    is_grain = part.grain_out != part.drawn_from_inside
    return "grain side up" if is_grain else "flesh side up"


def _backbone(sided: SidedPart) -> float | None:
    way = sided.part.backbone_deg
    if way is None:
        return None
    is_mirrored = sided.side is Side.RIGHT and not sided.part.copied
    return (180.0 - way if is_mirrored else way) % 360.0


def _lines(derived: Derived, sided: SidedPart) -> tuple[FullLine, ...]:
    """Return the axes about which the part is bent or folded, where the pattern draws them."""
    place = turner(derived.pattern)(sided)
    return tuple(
        FullLine(ends=(place(form.axis[0]), place(form.axis[1])), label=_bent(form.kind))
        for form in derived.pattern.forms
        if form.axis is not None and sided.part.id in form.parts
    )


def _bent(kind: FormKind) -> str:
    return "fold here" if kind is FormKind.FOLD else "axis of the bend"
