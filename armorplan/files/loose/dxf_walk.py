"""Walks a DXF drawing: blocks put in, nested and in arrays, layers that are off, colours."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from armorplan.files.faults import brief
from armorplan.files.loose.left_out import LeftOut
from armorplan.files.loose.stoppable import StoppableBudget
from armorplan.kernel.findings import Place

if TYPE_CHECKING:
    from ezdxf.document import Drawing

_DEEPEST = 50
_BY_LAYER, _BY_BLOCK, _PAPER_INK = 256, 0, 7
_LETTERING = frozenset({"TEXT", "MTEXT", "ATTRIB"})
_LINES = frozenset({"LINE", "CIRCLE", "ARC", "ELLIPSE", "SPLINE", "LWPOLYLINE", "POLYLINE"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Put:
    """One entity as it stands in the whole drawing.

    Attributes:
        entity: it, moved to where its blocks are put.
        handle: its own in the file, or that of the outermost block it is part of.
        layer: its layer; in a block layer 0 is that of the block.
        colour: ``#rrggbb``.
        group: the name of the innermost block it is part of.
    """

    entity: Any
    handle: str
    layer: str
    colour: str
    group: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stand:
    blocks: tuple[str, ...] = ()
    handle: str = ""
    layer: str = "0"
    colour: str = ""


class DxfWalk:
    """Finds what is drawn in a DXF file; what is left out is counted."""

    def __init__(self, drawing: "Drawing", left_out: LeftOut, budget: StoppableBudget) -> None:
        self._drawing = drawing
        self._left_out = left_out
        self._budget = budget

    def walked(self) -> Iterator[Put]:
        """Yield lines and lettering of the model, or of the first page where the model is empty."""
        pages = [
            self._drawing.modelspace(),
            *(page for page in self._drawing.layouts if page.name != "Model"),
        ]
        full = next((page for page in pages if len(page)), None)
        if full is not None:
            yield from self._all(full, _Stand())

    def _all(self, entities: Iterable[Any], stand: _Stand) -> Iterator[Put]:
        for entity in entities:
            self._budget.placed()
            yield from self._one(entity, stand)

    def _one(self, entity: Any, stand: _Stand) -> Iterator[Put]:
        layer = entity.dxf.get("layer", "0")
        if layer == "0":
            layer = stand.layer
        kind = entity.dxftype()
        if self._is_hidden(entity, layer):
            self._left_out.count(
                "hidden",
                "Lines on layers that are off, or hidden",
                "Switch them on in the drawing program if they belong to the pattern.",
                self._place(layer),
            )
            return
        put = Put(
            entity=entity,
            handle=stand.handle or entity.dxf.get("handle") or "",
            layer=brief(layer),
            colour=self._colour(entity, layer, stand),
            group=_name(stand.blocks),
        )
        if kind == "INSERT":
            yield from self._block(put, stand)
        elif kind in _LINES or kind in _LETTERING:
            yield put
        else:
            self._left_out.count(
                "other-kinds",
                f"{kind} entities, which are no lines",
                "Explode them to lines in the drawing program if they belong to the pattern.",
                self._place(put.handle),
            )

    def _block(self, put: Put, stand: _Stand) -> Iterator[Put]:
        insert = put.entity
        name = insert.dxf.get("name", "")
        fault = self._fault(name, stand)
        if fault:
            self._left_out.flaw(*fault, self._place(name))
            return
        inner = _Stand(
            blocks=(*stand.blocks, name), handle=put.handle, layer=put.layer, colour=put.colour
        )
        yield from self._all(insert.attribs, inner)
        copies = insert.multi_insert() if insert.mcount > 1 else (insert,)
        for copy in copies:
            yield from self._all(copy.virtual_entities(), inner)

    def _fault(self, name: str, stand: _Stand) -> tuple[str, str, str] | None:
        block = self._drawing.blocks.get(name) if name else None
        if name in stand.blocks or len(stand.blocks) >= _DEEPEST:
            return (
                "block-in-itself",
                "The block is put into itself.",
                "Explode it to lines in the drawing program.",
            )
        if block is None:
            return (
                "missing-block",
                "The block is put in, but not in the file.",
                "Save the drawing with all its blocks.",
            )
        if block.block is not None and (block.block.is_xref or block.block.is_xref_overlay):
            return (
                "outside-file",
                "It stands in another file, which is not read.",
                "Bind it into the drawing, or read that file by itself.",
            )
        return None

    def _is_hidden(self, entity: Any, layer: str) -> bool:
        if entity.dxf.get("invisible", 0):
            return True
        if not self._drawing.layers.has_entry(layer):
            return False
        known = self._drawing.layers.get(layer)
        return bool(known.is_off() or known.is_frozen())

    def _colour(self, entity: Any, layer: str, stand: _Stand) -> str:
        from ezdxf.colors import aci2rgb

        if entity.rgb is not None:
            return "#{:02x}{:02x}{:02x}".format(*entity.rgb)
        index = entity.dxf.get("color", _BY_LAYER)
        if index == _BY_BLOCK:
            return stand.colour
        if index == _BY_LAYER:
            known = self._drawing.layers.has_entry(layer)
            index = abs(self._drawing.layers.get(layer).dxf.color) if known else _PAPER_INK
        if index == _PAPER_INK or not 0 < index < _BY_LAYER:
            return "#000000"
        return "#{:02x}{:02x}{:02x}".format(*aci2rgb(index))

    def _place(self, key: str) -> Place:
        return Place(file=self._left_out.name, key=brief(key) if key else None)


def _name(blocks: tuple[str, ...]) -> str:
    """Return the name of the innermost block; those with a star were made by a program."""
    named = [brief(name) for name in blocks if not name.startswith("*")]
    return named[-1] if named else ""


def is_lettering(entity: Any) -> bool:
    """Tell whether an entity is a text."""
    return entity.dxftype() in _LETTERING
