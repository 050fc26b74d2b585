"""Edits of holes on the drawing table: added, moved, sized, taken out."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QCoreApplication, QPointF

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.holes import add_hole, drop_holes, move_holes, set_hole
from armorplan.desktop.shape_edit_asks import Ask, AskField, Told, number
from armorplan.desktop.shape_edit_over import Ghost
from armorplan.desktop.shape_edit_scene import middle
from armorplan.desktop.shape_edit_words import mm
from armorplan.desktop.widgets.parts_items import ring_path
from armorplan.desktop.widgets.shape_edit_doing import TableDoing
from armorplan.pattern.parts import Point

USUAL_MM = 4.0
"""Diameter of the first hole of a part, for want of a better: common practice, no source."""


def _tr(text: str) -> str:
    return QCoreApplication.translate("HoleActs", text)


class HoleActs:
    """What the menu of holes does."""

    def __init__(self, doing: TableDoing) -> None:
        self._doing = doing

    def acts(self) -> Mapping[str, Callable[[], None]]:
        """Return what each act does, by its slug."""
        return {
            "add_hole": self._ask_new,
            "place_hole": self._doing.place_wanted.emit,
            "move_holes": self._ask_way,
            "size_holes": self._ask_size,
            "drop_holes": self._drop,
        }

    def _ask_new(self) -> None:
        """Ask where a new hole lies; the mouse's place, or the middle of the part, is offered."""
        scene, pointer = self._doing.scene, self._doing.canvas.pointer
        parts = [scene.pattern.part(part) for part in self._doing.parts] or [
            part for part in scene.pattern.parts if ring_path(part.outline).contains(pointer)
        ]
        part = (parts or list(scene.pattern.parts))[0]
        is_under = ring_path(part.outline).contains(pointer)
        x, y = (pointer.x(), pointer.y()) if is_under else middle(part.outline)
        across_mm = part.holes[-1].diameter_mm if part.holes else USUAL_MM
        self._doing.ask(
            Ask(
                id="add_hole",
                title=_tr("A new hole"),
                help=_tr("Type its place, or click it on the drawing."),
                fields=(
                    AskField(
                        name="part",
                        label=_tr("in"),
                        text=part.id,
                        words=tuple((one.id, one.name) for one in scene.pattern.parts),
                    ),
                    AskField(name="x", label="x", text=mm(x), unit="mm", spot="x"),
                    AskField(name="y", label="y", text=mm(y), unit="mm", spot="y"),
                    AskField(name="across", label="ø", text=mm(across_mm), unit="mm"),
                ),
                then=self._add,
                sketch=self._sketch_new,
            )
        )

    def _add(self, told: Told) -> None:
        part, centre = told["part"], _place(told)
        across_mm = number(told["across"])
        name = self._doing.scene.pattern.part(part).name
        self._doing.want_new()
        self._doing.edit(
            lambda draft: add_hole(draft, part, centre, diameter_mm=across_mm),
            _tr("new hole in {0}").format(name),
        )

    def _sketch_new(self, told: Told) -> tuple[Ghost, ...]:
        return (Ghost(holes=((_place(told), number(told["across"])),)),)

    def _ask_way(self) -> None:
        self._doing.ask(
            Ask(
                id="move_holes",
                title=_tr("Move {0}").format(self._what()),
                help=_tr("Above 0 is right and down the page."),
                fields=(
                    AskField(name="x", label=_tr("right"), text="0", unit="mm"),
                    AskField(name="y", label=_tr("down"), text="0", unit="mm"),
                ),
                then=self._move,
                sketch=self._sketch_move,
            )
        )

    def _move(self, told: Told) -> None:
        holes, by_mm = self._doing.choice.holes, _place(told)
        words = _tr("move {0}").format(self._what())
        self._doing.edit(lambda draft: move_holes(draft, holes, by_mm), words)

    def _sketch_move(self, told: Told) -> tuple[Ghost, ...]:
        by = QPointF(*_place(told))
        held = (self._doing.scene.pattern.hole(hole) for hole in self._doing.choice.holes)
        moved = (
            ((hole.centre[0] + by.x(), hole.centre[1] + by.y()), hole.diameter_mm) for hole in held
        )
        return (Ghost(holes=tuple(moved)),)

    def _ask_size(self) -> None:
        first = self._doing.scene.pattern.hole(self._doing.choice.holes[0])
        self._doing.ask(
            Ask(
                id="size_holes",
                title=_tr("Diameter of {0}").format(self._what()),
                fields=(
                    AskField(name="across", label="ø", text=mm(first.diameter_mm), unit="mm"),
                ),
                then=self._size,
            )
        )

    def _size(self, told: Told) -> None:
        holes, across_mm = self._doing.choice.holes, number(told["across"])

        def sized(draft: Draft) -> Draft | Refused:
            made: Draft | Refused = draft
            for hole in holes:
                if isinstance(made, Draft):
                    made = set_hole(made, hole, diameter_mm=across_mm)
            return made

        self._doing.edit(sized, _tr("diameter of {0}").format(self._what()))

    def put(self, hole: str, centre: Point, across_mm: float) -> None:
        """Put a hole at a typed place, with a typed diameter."""
        was = self._doing.scene.pattern.hole(hole).diameter_mm
        wide = None if across_mm == was else across_mm
        words = _tr("place of {0}").format(hole)
        self._doing.edit(
            lambda draft: set_hole(draft, hole, centre=centre, diameter_mm=wide), words
        )

    def _drop(self) -> None:
        holes, words = self._doing.choice.holes, _tr("take out {0}").format(self._what())
        self._doing.edit(lambda draft: drop_holes(draft, holes), words)

    def _what(self) -> str:
        holes = self._doing.choice.holes
        return holes[0] if len(holes) == 1 else _tr("{0} holes").format(len(holes))


def _place(told: Told) -> Point:
    return number(told["x"]), number(told["y"])
