"""What the lines of a drawing are: what was joined and cleared, parts, holes, slots."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from armorplan.app.bringing.answering import SHAPE
from armorplan.app.bringing.asking import Asking, choices, counted, listed
from armorplan.app.bringing.kept import Stop
from armorplan.app.bringing.model import Bringing, Choice, Question, QuestionKind
from armorplan.files.typed_numbers import typed_number
from armorplan.geometry.areas import rectangle_mm
from armorplan.geometry.brought.model import (
    LooseDrawing,
    Shape,
    ShapeKind,
    SortedOut,
)
from armorplan.geometry.brought.sorting import sorted_out, with_kinds

JOINED_MM = (0.2, 1.0, 0.02)
"""How far apart two ends may lie that are joined; the first is the usual one."""
USUAL_HOLE_MM = (2.0, 8.0)
"""Round shapes of these sizes are asked about together (common practice, no source)."""
_LEAST_CORNERS = 3
_NOTES = 3
_TOLD_MM = 0.005


# --- joined and cleared -------------------------------------------------------------------------


@lru_cache(maxsize=6)
def _sorted(drawing: LooseDrawing, mm_each: float, tolerance_mm: float, stop: Stop) -> SortedOut:
    return sorted_out(drawing, mm_each=mm_each, tolerance_mm=tolerance_mm, should_stop=stop.ask)


def asked_shapes(asking: Asking, mm_each: float, stop: Stop) -> SortedOut:
    """Ask what was joined and what the shapes are; return them as they are taken now."""
    drawing = asking.bringing.drawing
    tolerance_mm = _tolerance_mm(asking.bringing)
    found = _sorted(drawing, mm_each, tolerance_mm, stop)
    _ask_cleared(asking, found, tolerance_mm)
    kinds: dict[str, ShapeKind] = {}
    for bundle in _bundles(found.shapes):
        taken = ShapeKind(asking.put(_bundle_question(bundle)))
        kinds |= {shape.key: taken for shape in bundle.shapes if taken is not shape.kind}
    known = {shape.key for shape in found.shapes}
    for about, choice in asking.bringing.answers.items():
        key = about.removeprefix(SHAPE)
        if about.startswith(SHAPE) and key in known and choice in set(ShapeKind):
            kinds[key] = ShapeKind(choice)
    return with_kinds(found, kinds) if kinds else found


def _tolerance_mm(bringing: Bringing) -> float:
    said = typed_number(bringing.answer("cleared") or "")
    return said if said and said > 0 else JOINED_MM[0]


def first_parts(
    bringing: Bringing, mm_each: float, found: SortedOut, stop: Stop
) -> tuple[str, ...]:
    """Return keys of the parts in the order of their numbers, those that a person made last.

    So a hole that is taken for a part renumbers no other.
    """
    plain = _sorted(bringing.drawing, mm_each, _tolerance_mm(bringing), stop)
    keys = (
        shape.key
        for each in (plain, found)
        for shape in each.shapes
        if shape.kind is ShapeKind.PART
    )
    return tuple(dict.fromkeys(keys))


def _ask_cleared(asking: Asking, found: SortedOut, tolerance_mm: float) -> None:
    joined, widest_mm = found.joined
    open_lines = [finding for finding in found.findings if finding.code.startswith("open")]
    if not joined and not found.doubled and not found.findings:
        return
    told = [_cleared_words(found.doubled, joined, widest_mm)] if joined or found.doubled else []
    told += [finding.text for finding in found.findings[:_NOTES]]
    if len(found.findings) > _NOTES:
        told.append(f"{len(found.findings) - _NOTES} more such notes are in the list of findings.")
    ways = dict.fromkeys((tolerance_mm, *JOINED_MM))
    asking.put(
        Question(
            id="cleared",
            kind=QuestionKind.CLEARED,
            text=" ".join(told),
            choices=tuple(
                Choice(key=f"{mm:g}", words=f"Join ends up to {mm:g} mm apart") for mm in ways
            ),
            suggested=f"{tolerance_mm:g}",
            sure=not open_lines,
            shapes=tuple(about for finding in found.findings for about in finding.about),
            settles=joined + found.doubled,
            typed="mm that two ends may lie apart",
            numeric=True,
        )
    )


def _cleared_words(doubled: int, joined: int, widest_mm: float) -> str:
    """Say what was taken out and joined, of what there was."""
    said: list[str] = []
    if doubled:
        lay = "that lay on another was" if doubled == 1 else "that lay on others were"
        said.append(f"{counted(doubled, 'line')} {lay} taken out")
    if joined:
        gap = (
            f", the widest gap {widest_mm:.2g} mm"
            if widest_mm >= _TOLD_MM
            else ", all without a gap"
        )
        ends = f"{counted(joined, 'open end')} {'was' if joined == 1 else 'were'} joined{gap}"
        said.append(ends)
    return f"{', and '.join(said)}."


# --- what each is -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bundle:
    id: str
    kind: ShapeKind
    size: str
    shapes: tuple[Shape, ...]


def _bundles(shapes: Iterable[Shape]) -> tuple[_Bundle, ...]:
    """Return shapes taken for the same, of one size and layer, together; parts in one bundle."""
    found: dict[tuple[ShapeKind, str, str], list[Shape]] = {}
    for shape in shapes:
        is_part = shape.kind is ShapeKind.PART
        layer = "" if is_part else shape.layer
        found.setdefault((shape.kind, _size(shape), layer), []).append(shape)
    order = (ShapeKind.FRAME, ShapeKind.PART, ShapeKind.HOLE, ShapeKind.SLOT, ShapeKind.ENGRAVING)
    return tuple(
        _Bundle(
            id=f"shapes:{kind.value}:{size}:{layer}",
            kind=kind,
            size=size,
            shapes=tuple(found[kind, size, layer]),
        )
        for kind, size, layer in sorted(
            (key for key in found if key[0] in order),
            key=lambda key: (order.index(key[0]), key[1:]),
        )
    )


def _size(shape: Shape) -> str:
    if shape.kind is ShapeKind.HOLE and shape.circle:
        diameter_mm = shape.circle[1]
        is_usual = USUAL_HOLE_MM[0] <= diameter_mm <= USUAL_HOLE_MM[1]
        return "" if is_usual else f"{diameter_mm:.1f}"
    if shape.kind is ShapeKind.SLOT and len(shape.points) >= _LEAST_CORNERS:
        long_mm, wide_mm = rectangle_mm(shape.points)
        return f"{long_mm:.1f} × {wide_mm:.1f}"
    return ""


_ASKED = {
    ShapeKind.PART: ("outline", "is a part", "are parts"),
    ShapeKind.HOLE: ("round shape", "is a hole", "are holes"),
    ShapeKind.SLOT: ("closed shape", "is a slot", "are slots"),
    ShapeKind.ENGRAVING: ("line", "is engraved, not cut", "are engraved, not cut"),
    ShapeKind.FRAME: ("outline", "is the frame of the page", "are frames of the page"),
}
_WORDS = {
    ShapeKind.PART: "Parts to cut out",
    ShapeKind.HOLE: "Holes",
    ShapeKind.SLOT: "Slots that a strap passes through",
    ShapeKind.ENGRAVING: "Engraved or drawn on, not cut",
    ShapeKind.FRAME: "Frame of the page; it is left out",
    ShapeKind.LEFT_OUT: "Nothing to be made; left out",
}
_OTHERWISE = {
    ShapeKind.PART: (ShapeKind.FRAME, ShapeKind.ENGRAVING, ShapeKind.LEFT_OUT),
    ShapeKind.HOLE: (ShapeKind.ENGRAVING, ShapeKind.PART, ShapeKind.LEFT_OUT),
    ShapeKind.SLOT: (ShapeKind.HOLE, ShapeKind.PART, ShapeKind.ENGRAVING, ShapeKind.LEFT_OUT),
    ShapeKind.ENGRAVING: (ShapeKind.LEFT_OUT, ShapeKind.SLOT),
    ShapeKind.FRAME: (ShapeKind.PART, ShapeKind.LEFT_OUT),
}


def _hole_sizes(shapes: Iterable[Shape]) -> str:
    sizes = Counter(round(shape.circle[1], 1) for shape in shapes if shape.circle)
    return ", ".join(f"{count:,} of {mm:g} mm" for mm, count in sorted(sizes.items()))


def _bundle_question(bundle: _Bundle) -> Question:
    what, one, many = _ASKED[bundle.kind]
    count = len(bundle.shapes)
    size = f" of {bundle.size} mm" if bundle.size else ""
    layer = bundle.shapes[0].layer if bundle.kind is not ShapeKind.PART else ""
    where = f" on layer '{layer}'" if layer else ""
    names = [shape.name for shape in bundle.shapes if shape.name]
    these = "This" if count == 1 else f"These {count:,}"
    text = f"{these} {what}{'' if count == 1 else 's'}{size}{where} {one if count == 1 else many}"
    text += f": {listed(names)}." if names and bundle.kind is ShapeKind.PART else "."
    if bundle.kind is ShapeKind.HOLE and not bundle.size:
        text = f"{text[:-1]}: {_hole_sizes(bundle.shapes)}."
    whys = dict.fromkeys(shape.why for shape in bundle.shapes if shape.why)
    kinds = (bundle.kind, *_OTHERWISE[bundle.kind])
    return Question(
        id=bundle.id,
        kind=QuestionKind.FRAME if bundle.kind is ShapeKind.FRAME else QuestionKind.SHAPES,
        text=text,
        choices=choices(
            (kinds[0].value, _WORDS[kinds[0]], next(iter(whys), "")),
            *((kind.value, _WORDS[kind]) for kind in kinds[1:]),
        ),
        suggested=bundle.kind.value,
        sure=bundle.kind in {ShapeKind.PART, ShapeKind.HOLE},
        shapes=tuple(shape.key for shape in bundle.shapes),
        settles=count,
    )
