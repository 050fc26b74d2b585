"""Reads a drawing, reckons what is asked of it, and writes the pattern; what is heavy loads with it."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from armorplan.app.bringing.answering import answered_all
from armorplan.app.bringing.answering import begun as begun_with
from armorplan.app.bringing.model import Bringing
from armorplan.desktop.bring_kept import Begun
from armorplan.desktop.bring_view import BringView, seen
from armorplan.files.typed_numbers import typed_number
from armorplan.kernel.stopping import ShouldStop
from armorplan.workshop.shelf import Shelf


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
        from armorplan.app.bringing.shape_questions import asked_shapes, asked_unit

        asking = Asking(bringing)
        mm_each = asked_unit(asking)
        found = asked_shapes(asking, mm_each, Stop(should_stop))
        return seen(bringing, found, asking.questions, mm_each)

    def look(self, bringing: Bringing, should_stop: ShouldStop) -> BringView:
        """Return what the answers make of it, and what is asked; seconds for a large drawing."""
        from armorplan.app.bringing.part_questions import shown_names
        from armorplan.app.bringing.standing import standing

        stands = standing(bringing, self._on_shelf(), should_stop=should_stop)
        drawn = stands.drawn
        drawn = drawn if stands.named else tuple(replace(part, name="") for part in drawn)
        names = shown_names(drawn, bringing)
        shapes = tuple(
            replace(shape, name=names[shape.key]) if shape.key in names else shape
            for shape in stands.sorted_out.shapes
        )
        found = replace(stands.sorted_out, shapes=shapes)
        mm_each = typed_number(stands.questions[0].taken) or 1.0
        return replace(seen(bringing, found, stands.questions, mm_each), title=stands.title)

    def write(self, bringing: Bringing, file: Path, folder: Path) -> tuple[str, ...]:
        """Write the pattern into a new or empty folder; return what it does not say yet.

        ArmorplanError where it cannot be written.
        """
        from armorplan.app.bringing.writing import left_open, write_brought

        write_brought(bringing, self._on_shelf(), folder=folder, original=file)
        return left_open(bringing, self._on_shelf())
