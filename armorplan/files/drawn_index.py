"""Finds by id what the drawings of a pattern hold, and says what is there instead."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from armorplan.files.drawing import Circle, Drawing, DrawnLine, Outline
from armorplan.files.faults import Faults, brief
from armorplan.kernel.findings import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """An id that the pattern names: where, and what it needs there: circle, outline, line.

    ``else_outline``: the remedy where a closed outline goes by the id instead.
    """

    id: str
    what: str
    place: Place
    else_outline: str = ""


class DrawnIndex:
    """All shapes of all drawings by id; ``sheet_of`` numbers the drawings.

    The first of several shapes with one id counts. Once an id is asked for, its being drawn twice
    is an error; of the rest ``tell_doubles`` warns.
    """

    def __init__(self, drawings: Sequence[Drawing], faults: Faults) -> None:
        self._drawings = drawings
        self._faults = faults
        self._told: set[str] = set()
        self._others = {o.id: o for drawing in reversed(drawings) for o in drawing.others}
        self._places: dict[str, list[Place]] = {}
        self.circles: dict[str, Circle] = {}
        self.outlines: dict[str, Outline] = {}
        self._lines: dict[str, list[DrawnLine]] = {}
        self.sheet_of: dict[str, int] = {}
        for sheet, drawing in enumerate(drawings):
            for circle in drawing.circles:
                if circle.id and self._first(circle.id, circle.place, sheet):
                    self.circles[circle.id] = circle
            for outline in drawing.outlines:
                if self._first(outline.id, outline.place, sheet):
                    self.outlines[outline.id] = outline
            for line in drawing.lines:
                self._lines.setdefault(line.id, []).append(line)

    def _first(self, shape_id: str, place: Place, sheet: int) -> bool:
        places = self._places.setdefault(shape_id, [])
        places.append(place)
        self.sheet_of.setdefault(shape_id, sheet)
        return len(places) == 1

    @property
    def is_whole(self) -> bool:
        """Tell whether every drawing could be read; else nothing can be said to be missing."""
        return bool(self._drawings) and all(drawing.readable for drawing in self._drawings)

    def circle(self, asked: Asked) -> Circle | None:
        """Return the circle that the pattern names; its lack is told."""
        self._tell_double(asked.id)
        found = self.circles.get(asked.id)
        if found is None:
            self._tell_lack(asked, self.circles)
        return found

    def outline(self, asked: Asked) -> Outline | None:
        """Return the closed outline that the pattern names; its lack is told."""
        self._tell_double(asked.id)
        found = self.outlines.get(asked.id)
        if found is None:
            self._tell_lack(asked, self.outlines)
        return found

    def line(self, asked: Asked) -> DrawnLine | None:
        """Return the straight line that the pattern names; its lack is told."""
        found = self._lines.get(asked.id, [])
        if not found:
            self._tell_lack(asked, self._lines)
        elif len(found) > 1:
            self._tell_twice(asked.id, [line.place for line in found])
        return found[0] if found else None

    def _tell_lack(self, asked: Asked, among: Collection[str]) -> None:
        flaws = [d.flawed[asked.id] for d in self._drawings if asked.id in d.flawed]
        if flaws and asked.what != "line":
            self._faults.put(flaws[0])
        elif self.is_whole:
            self._faults.error(
                f"no-such-{asked.what}",
                f'The drawings hold no {asked.what} "{brief(asked.id)}"{self._instead(asked)}.',
                mend=self._remedy(asked, among),
                place=asked.place,
                about=(asked.id,),
            )

    def _remedy(self, asked: Asked, among: Collection[str]) -> str:
        if asked.else_outline and asked.id in self.outlines:
            return asked.else_outline
        near = self._faults.nearest(asked.id, among)
        if near:
            return f'Perhaps "{near}" is meant.'
        return f"Draw it as a {_DRAWN_AS[asked.what]} with this id, or name another."

    def _instead(self, asked: Asked) -> str:
        """Say what goes by the id that was asked for."""
        flaws = [d.flawed[asked.id] for d in self._drawings if asked.id in d.flawed]
        if flaws:
            return f": at {flaws[0].place} it is a shape that is not a straight line of two points"
        if asked.id in self.outlines:
            return f": at {self.outlines[asked.id].place} it is a closed outline"
        if asked.id in self.circles:
            return f": at {self.circles[asked.id].place} it is a circle"
        other = self._others.get(asked.id)
        return f": at {other.place} it is {other.what}" if other else ""

    def _tell_double(self, shape_id: str) -> None:
        places = self._places.get(shape_id, [])
        if len(places) > 1:
            self._tell_twice(shape_id, places)

    def _tell_twice(self, shape_id: str, places: list[Place]) -> None:
        if shape_id not in self._told:
            self._told.add(shape_id)
            self._faults.error(
                "drawn-twice",
                f'The id "{brief(shape_id)}" is drawn twice: at {places[0]} and at {places[1]}.',
                mend="Give one of the two another id.",
                place=places[1],
                about=(shape_id,),
            )

    def tell_doubles(self) -> None:
        """Warn of ids drawn twice that the pattern does not name."""
        for shape_id, places in self._places.items():
            if len(places) > 1 and shape_id not in self._told:
                self._faults.warning(
                    "drawn-twice",
                    f'The id "{brief(shape_id)}" is drawn twice, first at {places[0]}; this one '
                    "is left out.",
                    mend="Give it another id.",
                    place=places[1],
                    about=(shape_id,),
                )


_DRAWN_AS = {"circle": "circle", "outline": "closed path", "line": "straight line"}
