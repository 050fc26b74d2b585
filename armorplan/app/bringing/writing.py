"""The folder of a drawing brought in: clean drawing, pattern.toml, and the file as it was brought."""

import shutil
from collections.abc import Iterator
from pathlib import Path

from armorplan.app.bringing.model import Bringing
from armorplan.app.bringing.naming import Names, names_of
from armorplan.app.bringing.standing import Standing, standing
from armorplan.app.bringing.tables import line_id, tables_of
from armorplan.files.bare_pattern import plain_id
from armorplan.files.brought_text import (
    Drawn,
    Written,
    corner_of,
    svg_text,
    toml_text,
    uuid_of,
)
from armorplan.files.faults import brief
from armorplan.files.new_folder import write_new
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PATTERN_FILE, from_texts
from armorplan.geometry.brought.model import ShapeKind
from armorplan.kernel.errors import ArmorplanError, FaultyPatternError, UnreadableError
from armorplan.kernel.findings import Finding, Severity, has_errors
from armorplan.kernel.stopping import ShouldStop, never
from armorplan.pattern.parts import Point, Ring
from armorplan.workshop.shelf import Shelf

AS_BROUGHT = "as_brought"
"""The folder in the pattern's folder that keeps the file as it was brought."""
_HEAD = """\
# Brought in from {name}; 1 unit of that file is {mm_each:.6g} mm. The file lies in {kept} as it was.
# Lengths are millimetres; the ids of outlines, holes and slots are those of {drawing}.
# What a drawing cannot tell was confirmed or taken as suggested: look it through before you cut.
# Made from this pattern it is costume, not protective equipment.
format = 1
"""


def bringing_texts(
    bringing: Bringing, shelf: Shelf, *, should_stop: ShouldStop = never
) -> dict[str, str]:
    """Return pattern.toml and the clean drawing, by file name.

    Raises:
        UnreadableError: the drawing holds no part.
        FaultyPatternError: what was answered makes no sound pattern; the findings say why.
        StoppedError: it is no longer wanted.
    """
    stands = standing(bringing, shelf, should_stop=should_stop)
    if not stands.parts:
        raise UnreadableError((_no_part(bringing),))
    texts = _texts(bringing, stands, shelf)
    slug = plain_id(stands.title.lower(), (), otherwise="pattern")
    found = read_pattern(from_texts(slug, texts), shelf).findings
    if has_errors(found):
        raise FaultyPatternError(tuple(f for f in found if f.severity is Severity.ERROR))
    return texts


def write_brought(
    bringing: Bringing, shelf: Shelf, *, folder: Path, original: Path
) -> tuple[Path, ...]:
    """Write a new pattern folder, the file it was brought from in it; return the paths.

    Raises:
        ArmorplanError: the folder is not empty, or cannot be written; then nothing is left behind.
    """
    texts = bringing_texts(bringing, shelf)
    _check_empty(folder)
    written = write_new(folder, texts)
    kept = folder / AS_BROUGHT / original.name
    try:
        kept.parent.mkdir()
        shutil.copyfile(original, kept)
    except OSError as error:
        for path in written:
            path.unlink(missing_ok=True)
        shutil.rmtree(kept.parent, ignore_errors=True)
        message = (
            f"{brief(original.name)} cannot be kept in {brief(str(folder))}: {error.strerror}."
        )
        raise ArmorplanError(message) from error
    return (*written, kept)


def _check_empty(folder: Path) -> None:
    try:
        held = next(folder.iterdir(), None) if folder.is_dir() else None
    except OSError:
        return  # writing says why
    if held is not None:
        message = (
            f"{brief(str(folder))} is not empty: it holds {brief(held.name)}; nothing was written. "
            "Give a folder that is new or empty."
        )
        raise ArmorplanError(message)


def left_open(bringing: Bringing, shelf: Shelf) -> tuple[str, ...]:
    """Return what the pattern does not say yet, as sentences: holes and slots without a use."""
    stands = standing(bringing, shelf)
    names = names_of(stands)
    return tuple(_unused(stands, names))


def _unused(stands: Standing, names: Names) -> Iterator[str]:
    used = {hole for row in stands.rows for pair in row.pairs for hole in pair}
    used |= {hole for closing in stands.closings for hole in closing.holes}
    passed = {slot for each in stands.threads for slot in each.through}
    passed |= {closing.fold for closing in stands.closings}
    for part in stands.parts:
        holes = sum(hole.id not in used for hole in part.holes)
        slots = sum(slot.id not in passed for slot in part.slots)
        told = [
            f"{count} {what}{'' if count == 1 else 's'}"
            for count, what in ((holes, "hole"), (slots, "slot"))
            if count
        ]
        if told:
            yield f"The {names.part_names[part.id]} has {' and '.join(told)} without a use yet."


def _no_part(bringing: Bringing) -> Finding:
    return Finding(
        code="no-outline",
        severity=Severity.ERROR,
        text=f"{brief(bringing.drawing.name)} draws no part: nothing in it is a closed outline "
        "that is taken for one.",
        remedy="Draw each part as one closed line, with its holes inside it.",
    )


# --- texts ----------------------------------------------------------------------------------------


def _texts(bringing: Bringing, stands: Standing, shelf: Shelf) -> dict[str, str]:
    names = names_of(stands)
    drawing = f"{plain_id(stands.title.lower(), (), otherwise='pattern')}.svg"
    cut = list(_cut(stands, names))
    corner = corner_of(cut)
    engraved = [_moved(shape, corner) for shape in _engraved(stands)]
    svg = svg_text(stands.title, [_moved(shape, corner) for shape in cut], engraved)
    head = _HEAD.format(
        name=brief(bringing.drawing.name),
        mm_each=stands.mm_each,
        kept=AS_BROUGHT,
        drawing=drawing,
    )
    pattern = Written(
        path=("pattern",),
        values={"uuid": uuid_of(svg), "name": stands.title, "version": 1, "drawings": [drawing]},
    )
    tables = tables_of(stands, names, corner=corner, shelf=shelf)
    return {PATTERN_FILE: toml_text(head, (pattern, *tables)), drawing: svg}


def _cut(stands: Standing, names: Names) -> Iterator[Drawn]:
    for part in stands.parts:
        yield Drawn(id=names.parts[part.id], ring=_sound(part.outline))
        for slot in part.slots:
            yield Drawn(id=names.slots[slot.id], ring=_sound(slot.outline))
        for hole in part.holes:
            yield Drawn(id=names.holes[hole.id], circle=(hole.centre, round(hole.diameter_mm, 2)))


def _engraved(stands: Standing) -> Iterator[Drawn]:
    """Give the lines that are not cut, of parts that are written; folds with their ids."""
    named = {form.line: line_id(form) for form in stands.shaping if form.line}
    written = {part.id for part in stands.parts}
    for shape in stands.sorted_out.shapes:
        if shape.kind is ShapeKind.ENGRAVING and (shape.inside in written or not shape.inside):
            yield Drawn(id=named.get(shape.key, ""), ring=shape.points, closed=shape.closed)


def _moved(shape: Drawn, corner: Point) -> Drawn:
    ring = tuple((x - corner[0], y - corner[1]) for x, y in shape.ring)
    circle = None
    if shape.circle is not None:
        (x, y), diameter_mm = shape.circle
        circle = ((x - corner[0], y - corner[1]), diameter_mm)
    return Drawn(id=shape.id, ring=ring, closed=shape.closed, circle=circle)


def _sound(ring: Ring) -> Ring:
    """Return an outline as it is; of one that crosses itself, the largest area it encloses."""
    from shapely import Polygon, get_parts, make_valid

    area = Polygon(ring)
    if area.is_valid:
        return ring
    parts = [each for each in get_parts(make_valid(area)) if each.geom_type == "Polygon"]
    if not parts:
        return ring
    largest = max(parts, key=lambda each: each.area)
    return tuple((x, y) for x, y in largest.exterior.coords[:-1])
