"""Which marks are drawn over the parts: what has to be known always, the rest for what is chosen."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from armorplan.app.rows import DiagramMark, Selection
from armorplan.app.shape_rows import ShapeRow
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Topic

REACH = f"{Topic.REACH}:"
"""What the ids of measures of reach begin with."""
PARTS_MOST = 6
"""Where more parts than this are lit, their sound marks would be a thicket."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownMark:
    """A mark that is drawn, and the measure it belongs to.

    ``chosen`` tells that the measure is, ``faded`` that something else is, ``aside`` that it is
    drawn only because everything is; ``close`` that its words stand on their part or nowhere: it
    is sound, and many others are drawn.
    """

    measure: str
    mark: Mark
    chosen: bool = False
    faded: bool = False
    aside: bool = False
    close: bool = False


def shown_marks(
    marks: tuple[DiagramMark, ...],
    joints: Mapping[str, frozenset[str]],
    selection: Selection,
    *,
    everything: bool,
) -> Iterator[ShownMark]:
    """Yield the marks to draw, in the order of the measures.

    A mark of something to know or to mend is always drawn; one of what is sound for what is
    chosen, or with ``everything``.

    Args:
        marks: all marks of the diagram.
        joints: which joints each measure speaks of.
        selection: what is chosen.
        everything: draw all of them.
    """
    dims = bool(selection.parts or selection.joints)
    for row in marks:
        named = row.measure in selection.measures
        chosen = named or _is_chosen(row, joints, selection)
        matters = chosen or row.mark.severity is not None
        if everything or matters:
            yield ShownMark(
                measure=row.measure,
                mark=row.mark,
                chosen=named,
                faded=dims and not chosen and row.mark.part not in selection.parts,
                aside=not matters,
                close=row.mark.severity is None
                and not named
                and (len(selection.parts) > 1 or not matters),
            )


def _is_chosen(
    row: DiagramMark, joints: Mapping[str, frozenset[str]], selection: Selection
) -> bool:
    """Tell whether a mark belongs to what is chosen.

    A measure brings its own marks only; a part those that lie on it; a fastener, or a step that
    sets some, those of the measures that speak of them.
    """
    if selection.measures:
        return False
    on_part = row.mark.part in selection.parts
    if len(selection.parts) == 1:
        return on_part
    if len(selection.parts) > PARTS_MOST:
        return False
    if selection.joints:
        return not joints.get(row.measure, frozenset()).isdisjoint(selection.joints)
    return on_part


def _named(row: DiagramMark, title: str) -> DiagramMark:
    if row.mark.kind is not MarkKind.GHOST or row.mark.label:
        return row
    return replace(row, mark=replace(row.mark, label=title))


class MarkChoice:
    """What decides which marks are drawn: all there are, what is chosen, and whether all shall be."""

    def __init__(self) -> None:
        self.selection = Selection()
        self.everything = False
        self.follows_reach = False
        """Reach is drawn as it stands along the order: what the measures draw of it, all rows set, is not."""
        self._marks: tuple[DiagramMark, ...] = ()
        self._joints: dict[str, frozenset[str]] = {}

    def take(self, marks: tuple[DiagramMark, ...], rows: tuple[ShapeRow, ...]) -> None:
        """Choose among these marks; ``rows`` is what they belong to.

        The outline of a part without a name of its own is named after what was looked at.
        """
        titles = {row.id: row.title for row in rows}
        self._marks = tuple(_named(mark, titles.get(mark.measure, "")) for mark in marks)
        self._joints = {row.id: frozenset(row.joints) for row in rows}

    def shown(self) -> tuple[ShownMark, ...]:
        """Return the marks to draw."""
        marks = tuple(row for row in self._marks if not self._is_told_otherwise(row))
        return tuple(shown_marks(marks, self._joints, self.selection, everything=self.everything))

    def _is_told_otherwise(self, row: DiagramMark) -> bool:
        """Tell whether a sound mark of reach would speak of another state than is followed."""
        is_asked_for = row.measure in self.selection.measures
        is_sound = row.mark.severity is None and not is_asked_for
        return self.follows_reach and is_sound and row.measure.startswith(REACH)
