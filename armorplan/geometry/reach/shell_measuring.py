"""Reach: one line for each shell with its mouths, or that its plates only lie on each other."""

from collections.abc import Sequence

from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.reach import faults
from armorplan.geometry.reach.figures import shell_figures
from armorplan.geometry.reach.gathered import Reach
from armorplan.geometry.reach.lying_flat import Hanging
from armorplan.geometry.reach.marks import mouth_marks
from armorplan.geometry.reach.model import Row, Shell
from armorplan.geometry.reach.words import mouth_words, mouths_told
from armorplan.geometry.told import begun, listed
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf


def part_names(pattern: Pattern, parts: Sequence[str]) -> str:
    """Name parts in a maker's words."""
    return listed([pattern.part(part).name for part in parts])


def shell_measure(pattern: Pattern, shelf: Shelf, reach: Reach, shell: Shell) -> Measure:
    """Return what is told of a shell whose plates rows hold together."""
    told = _laid if lies_flat(shell) else _of_shell
    return told(pattern, shelf, reach, shell)


def _of_shell(pattern: Pattern, shelf: Shelf, reach: Reach, shell: Shell) -> Measure:
    names, found = (
        part_names(pattern, shell.parts),
        (
            tuple(faults.no_opening(pattern, reach, shell))
            or tuple(faults.no_order(shelf, reach, shell))
        ),
    )
    words = [
        f"Once its rows are set, {names} {'make' if len(shell.parts) > 1 else 'makes'} one shell."
    ]
    words += mouth_words(shell)
    if shell.hollow:
        words.append(
            "It curves inwards somewhere, or this is not known: nothing of it is said to be out of "
            "reach for sure, and where its wall bulges into the way a straight tool may not get past "
            "though it is long enough."
        )
    return Measure(
        id=f"reach:shell:{shell.id}",
        topic=Topic.REACH,
        title=f"shell of {names}",
        verdict=mouths_told(shell),
        text=" ".join((*words, *(each.text for each in found))),
        figures=tuple(shell_figures(shell)),
        findings=found,
        marks=tuple(mouth_marks(shell)),
        about=(*shell.parts, *(row.id for row in shell.rows if _is_seam(pattern, row))),
    )


def lies_flat(shell: Shell) -> bool:
    """Tell whether plates lie on each other layer on layer, so that their rows shut nothing in."""
    hanging, rows = Hanging(shell.rows, shell.formed, shell.closures), {r.id for r in shell.rows}
    parts = shell.parts
    return not hanging.is_shaped(parts, rows) and not hanging.is_enclosed(parts, rows)


def _laid(pattern: Pattern, shelf: Shelf, reach: Reach, shell: Shell) -> Measure:
    names, found = part_names(pattern, shell.parts), tuple(faults.no_order(shelf, reach, shell))
    words = f"{names} lie flat when all their rows are set: what sits on them is reached from any edge."
    return Measure(
        id=f"reach:shell:{shell.id}",
        topic=Topic.REACH,
        title=names,
        verdict="flat, reached from any edge",
        text=" ".join((begun(words), *(each.text for each in found))),
        findings=found,
        about=(*shell.parts, *(row.id for row in shell.rows if _is_seam(pattern, row))),
    )


def _is_seam(pattern: Pattern, row: Row) -> bool:
    return any(seam.id == row.id for seam in pattern.seams)
