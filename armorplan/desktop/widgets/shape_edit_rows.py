"""Edits of rows on the drawing table: spaced evenly, or drawn along a part's edge."""

from collections.abc import Callable, Mapping
from itertools import pairwise
from math import dist

from PySide6.QtCore import QCoreApplication

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.rows import (
    Along,
    add_row,
    count_at,
    space_holes,
    space_row,
    spacing_of,
)
from armorplan.desktop.shape_edit_asks import Ask, AskField, Told, line_fields, line_told, number
from armorplan.desktop.shape_edit_over import Ghost
from armorplan.desktop.shape_edit_pairs import in_row
from armorplan.desktop.shape_edit_words import mm, span
from armorplan.desktop.widgets.shape_edit_doing import TableDoing
from armorplan.pattern.parts import Part, Point

USUAL_SPACING_MM = 24.0
USUAL_INSET_MM = 9.0
USUAL_HOLE_MM = 4.0
"""What is offered for the first row of a part: common practice, no source."""


def _tr(text: str) -> str:
    return QCoreApplication.translate("RowActs", text)


class RowActs:
    """What the menu of rows does beside joining."""

    def __init__(self, doing: TableDoing) -> None:
        self._doing = doing

    def acts(self) -> Mapping[str, Callable[[], None]]:
        """Return what each act does, by its slug."""
        return {"space_row": self._ask_spacing, "add_row": self._ask_row}

    # --- spacing ------------------------------------------------------------------------------

    def _ask_spacing(self) -> None:
        """Ask for a spacing or a count of the row chosen, or of free holes of one part."""
        scene, holes = self._doing.scene, self._doing.choice.holes
        seams = tuple(dict.fromkeys(row.seam for h in holes for row in scene.rows_of(h)))
        found = in_row([scene.pattern.hole(hole) for hole in holes])
        line = scene.rows_of(holes[0])[0].line if seams else tuple(h.centre for h in found)
        if len(seams) > 1 or len(line) < len(("first", "last")):
            self._doing.said.emit(_tr("Choose holes of one row, or free holes of one part."))
            return
        gaps = [dist(one, other) for one, other in pairwise(line)]
        row = tuple(hole.id for hole in found)
        self._doing.ask(
            Ask(
                id="space_row",
                title=_tr("Space {0} evenly").format(seams[0] if seams else _tr("the holes")),
                help=_tr("Now {0} holes, {1} mm apart. The ends stay.").format(
                    len(line), span(gaps)
                ),
                fields=(
                    AskField(
                        name="spacing",
                        label=_tr("about every"),
                        text=mm(sum(gaps) / len(gaps)),
                        unit="mm",
                        may_lack=True,
                    ),
                    AskField(name="count", label=_tr("or so many holes"), may_lack=True),
                ),
                then=lambda told: self._space(seams, row, gaps, told),
            )
        )

    def _space(
        self, seams: tuple[str, ...], holes: tuple[str, ...], gaps: list[float], told: Told
    ) -> None:
        count = told["count"].strip()
        if not count.isdecimal() and (count or not told["spacing"].strip()):
            self._doing.said.emit(_tr("Type a spacing in mm, or a whole number of holes."))
            return

        def wanted(now: tuple[float, ...]) -> int:
            return int(count) if count else count_at(now, max(number(told["spacing"]), 1.0))

        def spaced(draft: Draft) -> Draft | Refused:
            if seams:
                return space_row(
                    draft, seams[0], count=wanted(spacing_of(draft, seams[0]) or tuple(gaps))
                )
            return space_holes(draft, holes, count=wanted(tuple(gaps)))

        self._doing.edit(spaced, _tr("spacing of {0}").format(seams[0] if seams else holes[0]))

    # --- a row along an edge ------------------------------------------------------------------

    def _ask_row(self) -> None:
        part = self._doing.scene.pattern.part(self._doing.parts[0])
        start, end = self._ends(part)
        size_mm = part.holes[-1].diameter_mm if part.holes else USUAL_HOLE_MM
        self._doing.ask(
            Ask(
                id="add_row",
                title=_tr("A row along the edge of {0}").format(part.name),
                help=_tr("Click or type two places at the edge; it runs the shorter way."),
                fields=(
                    *line_fields((start, end)),
                    _size("inset", _tr("inside the edge"), USUAL_INSET_MM),
                    _size("spacing", _tr("every"), USUAL_SPACING_MM),
                    _size("across", "ø", size_mm),
                ),
                then=lambda told: self._add_row(part, told),
                sketch=_sketch_ends,
            )
        )

    def _ends(self, part: Part) -> tuple[Point, Point]:
        """Return the places of two holes that are chosen, else the ends of the part's upper edge."""
        chosen = [self._doing.scene.pattern.hole(hole) for hole in self._doing.choice.holes]
        inside = [hole.centre for hole in chosen if hole.part == part.id]
        if len(inside) > 1:
            return inside[0], inside[-1]
        upper = sorted(part.outline, key=lambda at: at[1])[: max(len(part.outline) // 4, 2)]
        return min(upper), max(upper)

    def _add_row(self, part: Part, told: Told) -> None:
        start, end = line_told(told)
        along = Along(start, end, number(told["inset"]))
        spacing_mm, across_mm = number(told["spacing"]), number(told["across"])
        self._doing.want_new()
        self._doing.edit(
            lambda draft: add_row(
                draft, part.id, along, spacing_mm=max(spacing_mm, 1.0), diameter_mm=across_mm
            ),
            _tr("row along {0}").format(part.name),
        )


def _size(name: str, label: str, value: float) -> AskField:
    return AskField(name=name, label=label, text=mm(value), unit="mm")


def _sketch_ends(told: Told) -> tuple[Ghost, ...]:
    start, end = line_told(told)
    across_mm = number(told["across"])
    return (Ghost(holes=((start, across_mm), (end, across_mm))),)
