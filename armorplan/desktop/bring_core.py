"""Reads a drawing, reckons what is asked of it, and writes the pattern; what is heavy loads with it."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from armorplan.app.bringing.answering import answered_all
from armorplan.app.bringing.answering import begun as begun_with
from armorplan.app.bringing.leather_questions import USUAL
from armorplan.app.bringing.model import Bringing
from armorplan.desktop.bring_kept import Begun
from armorplan.desktop.bring_view import BringView, PartFacts, seen
from armorplan.files.typed_numbers import typed_number
from armorplan.kernel.stopping import ShouldStop
from armorplan.workshop.shelf import Shelf

if TYPE_CHECKING:
    from armorplan.app.bringing.standing import Standing


def facts_of(stands: "Standing") -> dict[str, PartFacts]:
    """Return what each drawn part is taken for; twins what is taken of the one that stands for them."""
    pieces = {part: piece.name for piece in stands.pieces for part in piece.parts}
    kept = {
        part.id: PartFacts(
            part=part.id,
            kind=part.kind.value,
            leather=f"{part.material}:{part.thickness_mm:g}",
            piece=pieces.get(part.id, ""),
        )
        for part in stands.parts
    }
    twins = {twin: kept[one] for twin, one in stands.folding.twin_of.items() if one in kept}
    return kept | twins


def _numbered(stands: "Standing", bringing: Bringing, should_stop: ShouldStop) -> dict[str, str]:
    """Return what the parts are called while it is asked what they are."""
    from armorplan.app.bringing.kept import Stop
    from armorplan.app.bringing.part_names import numbered_names
    from armorplan.app.bringing.shape_questions import first_parts

    order = first_parts(bringing, stands.mm_each, stands.sorted_out, Stop(should_stop))
    is_named = all(one.taken != "numbered" for one in stands.questions if one.id == "names")
    drawn = stands.drawn if is_named else [replace(part, name="") for part in stands.drawn]
    return numbered_names(drawn, bringing, order)


def leathers_of(shelf: Shelf) -> tuple[tuple[str, str], ...]:
    """Return what parts can be cut from: each leather as thin, usual and thick as it is bought."""
    found: list[tuple[str, str]] = []
    for leather in shelf.leathers:
        usual = [one.thickness_mm for one in USUAL.values() if one.leather == leather.id]
        thick = sorted({*leather.usual_mm, *usual})
        found += [(f"{leather.id}:{mm:g}", f"{leather.name}, {mm:g} mm") for mm in thick]
    return tuple(found)


class BroughtIn:
    """Fulfils ``bring_protocol.BringCore``. One shelf serves a drawing from reading to writing."""

    def __init__(self, shelf: Callable[[], Shelf]) -> None:
        self._read_shelf = shelf
        self._shelf: Shelf | None = None

    def _on_shelf(self) -> Shelf:
        if self._shelf is None:
            self._shelf = self._read_shelf()
        return self._shelf

    def read(self, begun: Begun, should_stop: ShouldStop) -> Bringing:
        """Read a drawing with the answers kept of it; UnreadableError where it cannot be read."""
        from armorplan.files.loose.reading import read_loose

        self._shelf = None
        drawing = read_loose(begun.file, should_stop=should_stop)
        return answered_all(begun_with(drawing, name=begun.name), begun.answers)

    def glimpse(self, bringing: Bringing, should_stop: ShouldStop) -> BringView:
        """Return its lines, and what is asked of them, before what they make together is sought."""
        from armorplan.app.bringing.asking import Asking
        from armorplan.app.bringing.kept import Stop
        from armorplan.app.bringing.shape_questions import asked_shapes
        from armorplan.app.bringing.unit_questions import asked_unit

        asking = Asking(bringing)
        mm_each = asked_unit(asking)
        found = asked_shapes(asking, mm_each, Stop(should_stop))
        return replace(seen(bringing, found, asking.questions, mm_each), is_whole=False)

    def look(self, bringing: Bringing, should_stop: ShouldStop) -> BringView:
        """Return what the answers make of it, and what is asked; seconds for a large drawing."""
        from armorplan.app.bringing.standing import standing

        stands = standing(bringing, self._on_shelf(), should_stop=should_stop)
        names = stands.names
        shapes = tuple(
            replace(shape, name=names[shape.key]) if shape.key in names else shape
            for shape in stands.sorted_out.shapes
        )
        found = replace(stands.sorted_out, shapes=shapes)
        mm_each = typed_number(stands.questions[0].taken) or 1.0
        return replace(
            seen(bringing, found, stands.questions, mm_each),
            title=stands.title,
            facts=facts_of(stands),
            leathers=leathers_of(self._on_shelf()),
            numbered=_numbered(stands, bringing, should_stop),
        )

    def write(self, bringing: Bringing, file: Path, folder: Path) -> tuple[str, ...]:
        """Write the pattern into a new or empty folder; return what it does not say yet.

        ArmorplanError where it cannot be written.
        """
        from armorplan.app.bringing.writing import left_open, write_brought

        write_brought(bringing, self._on_shelf(), folder=folder, original=file)
        return left_open(bringing, self._on_shelf())
