"""A bare drawing as a pattern: one SVG file, with nothing typed beside it.

What lacks an id gets one, circles too large to be holes become outlines, frames and shapes drawn
twice are hidden, and a ``pattern.toml`` is written for what is left. The rest of the program reads
these two texts as it reads any folder.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from armorplan.files.bare_pattern import BarePart, in_words, pattern_text, plain_id
from armorplan.files.bare_shapes import Found, free_circles, sort_out
from armorplan.files.bare_words import structure_findings
from armorplan.files.budget import OverBudgetError
from armorplan.files.drawing import Drawing, read_drawing
from armorplan.files.faults import brief, listed
from armorplan.files.file_bytes import read_file, unreadable
from armorplan.files.svg_tags import ShapeTag, shape_tags, with_attributes, with_round_paths
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Place

ENDING = ".svg"
_ROUND = frozenset({"circle", "ellipse"})


@dataclass(frozen=True, slots=True, kw_only=True)
class BareDrawing:
    """A drawing and the pattern written for it.

    Attributes:
        slug: what its builds are called.
        name: the drawing's file name.
        svg: its text, with what was added.
        toml: the text of ``pattern.toml``.
        findings: what its shapes were taken for, where that is not plain.
    """

    slug: str
    name: str
    svg: str
    toml: str
    findings: tuple[Finding, ...]


def is_bare_drawing(path: Path) -> bool:
    """Tell whether a path is an SVG file rather than a pattern folder."""
    try:
        return path.suffix.lower() == ENDING and path.is_file()
    except (OSError, ValueError):  # a name too long or with a zero byte
        return False


def read_bare(path: Path, *, most: int) -> BareDrawing:
    """Read a bare drawing.

    Args:
        path: the SVG file; a link is followed, since the person named it.
        most: the most bytes it may hold.

    Raises:
        UnreadableError: it is a folder, cannot be read, or draws no closed outline.
    """
    path = path.resolve()
    if path.is_dir():
        there = [drawing.name for drawing in path.glob(f"*{ENDING}")]
        raise unreadable(
            "is-a-folder",
            f"{brief(path.name)} is a folder; a drawing is wanted here.",
            mend=f"Name the drawing itself; it holds {listed(sorted(there))}."
            if there
            else "Name an SVG file.",
            place=Place(file=path.name),
        )
    data = read_file(path.parent, path.name, most=most)
    name = path.name if path.name.isprintable() else f"drawing{ENDING}"
    return bare_drawing(name, data.decode("utf-8"))


def bare_drawing(name: str, text: str) -> BareDrawing:
    """Return the pattern of a drawing's text; raises UnreadableError as ``read_bare`` does."""
    text, added = _with_ids(text)
    drawing = _readable(name, text)
    found = _sorted_out(drawing)
    unframed = [outline for outline in drawing.outlines if outline.id not in found.frames]
    round_parts = set(free_circles(unframed, drawing.circles))
    if round_parts:
        rounds = [t for t in shape_tags(text).shapes if t.tag in _ROUND and t.id in round_parts]
        text = with_round_paths(text, rounds)
        drawing = _readable(name, text)
        found = _sorted_out(drawing)
    if not found.parts:
        raise _no_outline(name, drawing)
    tags = shape_tags(text).shapes
    text = with_attributes(text, _hidden(tags, found))
    labels = {tag.id: tag.label for tag in tags}
    named = {i: labels.get(i) or i for i in found.parts}
    # A round part that had no id got one while it still looked like a hole.
    unnamed = (i for i in round_parts if i in added and not labels.get(i))
    named |= {i: i.replace("hole", "round part") for i in unnamed}
    return BareDrawing(
        slug=plain_id(name.removesuffix(Path(name).suffix), (), otherwise="pattern"),
        name=name,
        svg=text,
        toml=pattern_text(name, text, _parts(named)),
        findings=structure_findings(drawing, found),
    )


def _sorted_out(drawing: Drawing) -> Found:
    try:
        return sort_out(drawing.outlines, drawing.circles)
    except OverBudgetError as error:
        raise unreadable(
            "drawing-limit",
            f"{brief(drawing.name)} holds {error}, more than is read without a pattern.toml.",
            mend="Take out what is no part, or write a pattern.toml that names the parts.",
            place=Place(file=drawing.name),
        ) from error


def _readable(name: str, text: str) -> Drawing:
    drawing = read_drawing(name, text)
    if not drawing.readable:
        raise UnreadableError(drawing.findings)
    return drawing


def _with_ids(text: str) -> tuple[str, set[str]]:
    """Give every shape without an id one: its label, or what it seems to be and a number."""
    tags = shape_tags(text)
    taken = set(tags.ids)
    counts = {"hole": 0, "part": 0}
    added: list[tuple[ShapeTag, str]] = []
    for tag in tags.shapes:
        if "id" in tag.attrs:
            continue
        kind = "hole" if tag.tag in _ROUND else "part"
        counts[kind] += 1
        numbered = f"{kind}_{counts[kind]}"
        fresh = plain_id(tag.label or numbered, taken, otherwise=numbered)
        taken.add(fresh)
        added.append((tag, fresh))
    if not added:
        return text, set()
    text = with_attributes(text, ((tag, f' id="{fresh}"') for tag, fresh in added))
    return text, {fresh for _, fresh in added}


def _hidden(tags: tuple[ShapeTag, ...], found: Found) -> Iterator[tuple[ShapeTag, str]]:
    unwanted = {*found.frames, *found.doubles} - set(found.parts)
    for tag in tags:
        if tag.id in unwanted and "display" not in tag.attrs:
            yield tag, ' display="none"'


def _parts(named: dict[str, str]) -> tuple[BarePart, ...]:
    taken: set[str] = set()
    parts: list[BarePart] = []
    for outline, name in named.items():
        part = plain_id(outline, taken, otherwise="part")
        taken.add(part)
        parts.append(BarePart(id=part, outline=outline, name=in_words(name) or part))
    return tuple(parts)


def _no_outline(name: str, drawing: Drawing) -> UnreadableError:
    error = unreadable(
        "no-outline",
        f"{brief(name)} draws no closed outline, so it holds no part.",
        mend="Draw each part as one closed path, and its holes as circles inside it.",
        place=Place(file=name),
    )
    told = tuple(drawing.flawed.values())
    return UnreadableError((*error.findings, *drawing.findings, *told))
