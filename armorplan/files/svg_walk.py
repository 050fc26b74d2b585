"""Walks the tree of a drawing: groups, hidden layers, nested pages and uses, each placed in mm.

Why not a reader of whole documents: svgelements 1.9.6 gives holes that are not drawn (in masks,
markers and unused symbols), leaves out the view box of a used symbol, takes bad numbers for 0,
skips what it does not know in path data, and runs out of stack on uses in a circle. This walk is
short and knows every element's line; what is hard, path data, is left to fontTools.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from fontTools.misc.transform import Identity, Transform

from armorplan.files.budget import Budget, OverBudgetError
from armorplan.files.shapes import SHAPE_TAGS
from armorplan.files.svg_tree import MAX_DEPTH, Element
from armorplan.files.transforms import (
    ShapeFaultError,
    fit,
    plain_length,
    read_transform,
    view_box,
)

_GROUPS = frozenset({"g", "a", "switch"})
_PAGES = frozenset({"svg", "symbol"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """An element that draws, the id it goes by, and the way from its numbers to mm.

    ``line`` is where a maker finds it: that of the use, where it is used. ``stands_in`` is the way
    to mm from what it lies in, or the outermost use that draws it. ``above`` are the groups, pages
    and uses it lies in, outermost first.
    """

    element: Element
    id: str | None
    line: int
    to_mm: Transform
    stands_in: Transform = Identity
    above: tuple[Element, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stand:
    """Where the walk stands: ``uses`` are the ids being used, outermost first.

    ``name`` is what a used shape goes by; a shape inside a used group has no id of its own.
    """

    to_mm: Transform
    stands_in: Transform = Identity
    depth: int = 0
    uses: tuple[str, ...] = ()
    name: str | None = None
    line: int | None = None
    above: tuple[Element, ...] = ()


class Walk:
    """Finds what is drawn; what is wrong with a group or a use goes to ``tell``.

    ``tags`` are the elements looked for; hidden ones go to ``pass_by``.
    """

    def __init__(
        self,
        by_id: dict[str, Element],
        *,
        budget: Budget,
        tell: Callable[[ShapeFaultError, Element], None],
        tags: frozenset[str] = SHAPE_TAGS,
        pass_by: Callable[[Element], None] = lambda _: None,
    ) -> None:
        self._by_id = by_id
        self._budget = budget
        self._tell = tell
        self._tags = tags
        self._pass_by = pass_by
        self.placed: list[Placed] = []

    def start(self, root: Element, to_mm: Transform) -> None:
        """Walk the whole drawing.

        Raises:
            OverBudgetError: uses of uses multiply beyond the limits.
        """
        for child in root.children:
            self._visit(child, _Stand(to_mm=to_mm))

    def _visit(self, element: Element, stand: _Stand) -> None:
        self._budget.placed()
        if stand.depth > MAX_DEPTH:
            raise OverBudgetError(f"groups and uses nested more than {MAX_DEPTH} deep")
        if element.is_hidden:
            self._pass_by(element)
            return
        try:
            inner = replace(
                stand,
                to_mm=stand.to_mm.transform(read_transform(element.attrs.get("transform"))),
                stands_in=stand.stands_in if stand.uses else stand.to_mm,
                depth=stand.depth + 1,
            )
            self._enter(element, inner)
        except ShapeFaultError as fault:
            self._tell(fault, element)

    def _enter(self, element: Element, stand: _Stand) -> None:
        if element.tag in self._tags:
            name = stand.name if stand.uses else element.id
            line = stand.line or element.line
            self.placed.append(
                Placed(
                    element=element,
                    id=name,
                    line=line,
                    to_mm=stand.to_mm,
                    stands_in=stand.stands_in,
                    above=stand.above,
                )
            )
        elif element.tag in _GROUPS:
            self._children(element, replace(stand, name=None, above=(*stand.above, element)))
        elif element.tag == "svg":
            self._page(element, element.attrs, stand)
        elif element.tag == "use":
            self._use(element, stand)

    def _children(self, element: Element, stand: _Stand) -> None:
        for child in element.children:
            self._visit(child, stand)

    def _use(self, use: Element, stand: _Stand) -> None:
        href = use.attrs.get("href", "")
        target = self._by_id.get(href[1:]) if href.startswith("#") else None
        if target is None:
            raise ShapeFaultError(
                "use-of-nothing",
                f'It uses "{href[:60]}", which is not in the drawing.',
                "Replace it by the shape itself (unlink the clone).",
            )
        if href in stand.uses:
            raise ShapeFaultError(
                "use-of-itself",
                f'It uses "{href[:60]}", which uses it in turn.',
                "Replace it by the shape itself (unlink the clone).",
            )
        x, y = plain_length(use.attrs, "x"), plain_length(use.attrs, "y")
        inner = _Stand(
            to_mm=stand.to_mm.transform(Identity.translate(x, y)),
            stands_in=stand.stands_in,
            depth=stand.depth,
            uses=(*stand.uses, href),
            name=stand.name if stand.uses else use.id,
            line=stand.line or use.line,
            above=(*stand.above, use),
        )
        if target.tag in _PAGES and not target.is_hidden:
            sizes = {k: v for k, v in use.attrs.items() if k in {"width", "height"}}
            self._page(target, {**target.attrs, **sizes}, inner)
        else:
            self._visit(target, inner)

    def _page(self, element: Element, attrs: dict[str, str], stand: _Stand) -> None:
        """Enter a page inside the page, which may have a view box of its own."""
        x, y = plain_length(attrs, "x"), plain_length(attrs, "y")
        to_mm = stand.to_mm.transform(Identity.translate(x, y))
        box = view_box(attrs)
        if box is not None:
            size = plain_length(attrs, "width"), plain_length(attrs, "height")
            if min(size) <= 0:
                raise ShapeFaultError(
                    "page-without-size",
                    f"The inner <{element.tag}> has a viewBox, but no width and height.",
                    "Give it a width and a height as plain numbers, or ungroup it.",
                )
            to_mm = to_mm.transform(fit(box, size, attrs.get("preserveAspectRatio", "")).transform)
        above = (*stand.above, element)
        self._children(element, replace(stand, to_mm=to_mm, name=None, above=above))
