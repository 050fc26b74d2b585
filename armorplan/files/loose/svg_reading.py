"""An SVG as loose lines: everything that is seen, in the numbers of the file."""

from collections.abc import Iterator

from armorplan.files.budget import OverBudgetError
from armorplan.files.faults import brief
from armorplan.files.flatten import FLATTEN_MM
from armorplan.files.loose.left_out import LeftOut
from armorplan.files.loose.looks import chain_of, is_seen, layer_of, wrapping_groups
from armorplan.files.loose.stoppable import StoppableBudget
from armorplan.files.loose.strokes import over_limit
from armorplan.files.loose.style_sheets import dress, everything
from armorplan.files.loose.svg_lettering import lettering_of
from armorplan.files.loose.svg_tracing import Made, SvgTracing, is_curved
from armorplan.files.loose.svg_units import SvgPage, page_of, plain_lengths
from armorplan.files.loose.units import guessed, said, sizes_of, widest_mm
from armorplan.files.shapes import SHAPE_TAGS
from armorplan.files.svg_tree import Element, read_tree
from armorplan.files.svg_walk import Placed, Walk
from armorplan.files.transforms import ShapeFaultError
from armorplan.geometry.brought.model import Lettering, LooseDrawing, UnitGuess
from armorplan.kernel.findings import Place
from armorplan.kernel.stopping import ShouldStop

_SHARE = 1 / 4000
"""How fine curves are looked at for the size of a drawing without a unit, in pages."""
_TAGS = SHAPE_TAGS | {"text", "image", "foreignObject"}


def read_svg(name: str, text: str, should_stop: ShouldStop) -> LooseDrawing:
    """Read an SVG text.

    Raises:
        UnreadableError: it is no sound SVG, or holds more than is read.
        StoppedError: the reading was no longer wanted.
    """
    try:
        root = read_tree(name, text, StoppableBudget(should_stop))
        return _Reading(name, root, should_stop).read()
    except OverBudgetError as error:
        raise over_limit(name, str(error)) from error


class _Reading:
    def __init__(self, name: str, root: Element, should_stop: ShouldStop) -> None:
        self._name = name
        self._root = root
        self._should_stop = should_stop
        self._left_out = LeftOut(name)
        dress(root, should_stop)
        self._page = page_of(root, Place(file=name, line=root.line), self._left_out.faults)
        plain_lengths(root, self._page)
        self._by_id: dict[str, Element] = {}
        for element in everything(root):
            if element.id:
                self._by_id.setdefault(element.id, element)
        self._wrapping = wrapping_groups(root)

    def read(self) -> LooseDrawing:
        placed = [each for each in self._walked() if self._is_wanted(each)]
        shapes = [each for each in placed if each.element.tag != "text"]
        tracing = SvgTracing(self._name, self._wrapping, self._should_stop)
        flat = FLATTEN_MM / self._page.mm_each if self._page.mm_each else self._coarse()
        found = [tracing.traced(each, flat) for each in shapes]
        unit = _unit(self._page, found, self._should_stop)
        finest = FLATTEN_MM / widest_mm(unit)
        if finest < flat:
            found = [
                tracing.traced(each, finest) if is_curved(each.element) else former
                for each, former in zip(shapes, found, strict=True)
            ]
        for each, made in zip(shapes, found, strict=True):
            if isinstance(made, ShapeFaultError):
                self._left_out.flaw(made.code, made.text, made.mend, self._place(each))
            elif not made:
                self._left_out.no_length(self._place(each))
        return LooseDrawing(
            name=self._name,
            strokes=tuple(tracing.named(shapes, found)),
            lettering=tuple(self._lettering(placed)),
            unit=unit,
            findings=self._left_out.findings,
        )

    def _coarse(self) -> float:
        return max(*self._page.size, 1.0) * _SHARE

    def _walked(self) -> list[Placed]:
        walk = Walk(
            self._by_id,
            budget=StoppableBudget(self._should_stop),
            tell=self._tell,
            tags=_TAGS,
            pass_by=self._hidden,
        )
        walk.start(self._root, self._page.stretch)
        return walk.placed

    def _tell(self, fault: ShapeFaultError, element: Element) -> None:
        self._left_out.flaw(fault.code, fault.text, fault.mend, self._place(element))

    def _hidden(self, element: Element) -> None:
        if element.tag in {*SHAPE_TAGS, "g", "use", "text", "svg"}:
            self._left_out.count(
                "hidden",
                "Hidden layers or shapes",
                "Show them in the drawing program if they belong to the pattern.",
                self._place(element),
            )

    def _place(self, of: Element | Placed) -> Place:
        return Place(file=self._name, line=of.line, key=brief(of.id) if of.id else None)

    def _is_wanted(self, placed: Placed) -> bool:
        tag = placed.element.tag
        if tag == "image":
            self._left_out.count(
                "picture-inside",
                "Pictures of dots",
                "Draw the outlines over them as lines; a picture has no lines to cut.",
                self._place(placed),
            )
        elif tag == "foreignObject":
            self._left_out.count(
                "foreign-object",
                "Boxes of another language than SVG",
                "Write the text in them as plain text of the drawing.",
                self._place(placed),
            )
        elif is_seen(chain_of(placed.element, placed.above)):
            return True
        else:
            self._left_out.count(
                "unseen",
                "Shapes with neither line nor fill",
                "Give them a line if they belong to the pattern.",
                self._place(placed),
            )
        return False

    def _lettering(self, placed: list[Placed]) -> Iterator[Lettering]:
        for each in placed:
            if each.element.tag == "text":
                layer = layer_of(each.above, self._wrapping)
                found = lettering_of(each, self._by_id, layer)
                if found is not None:
                    yield found


def _unit(page: SvgPage, found: list[Made], should_stop: ShouldStop) -> UnitGuess:
    strokes = [s for made in found if not isinstance(made, ShapeFaultError) for s in made]
    sizes = sizes_of(strokes, should_stop)
    if page.mm_each is None:
        return guessed(sizes, usual=page.usual)
    return said(page.mm_each, page.how, sizes)
