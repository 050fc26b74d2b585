"""What the answers make of a drawing so far, with suggestions where nothing is answered yet."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache

from armorplan.app.bringing.answering import Fact
from armorplan.app.bringing.asking import Asking, capital
from armorplan.app.bringing.facts import said_facts
from armorplan.app.bringing.joint_questions import asked_joints
from armorplan.app.bringing.kept import Stop
from armorplan.app.bringing.leather_questions import Leather, ask_leathers
from armorplan.app.bringing.model import Bringing, Question
from armorplan.app.bringing.part_names import numbered_names, written_names
from armorplan.app.bringing.part_questions import (
    ask_kinds,
    ask_names,
)
from armorplan.app.bringing.part_shapes import parts_of
from armorplan.app.bringing.piece_questions import (
    Bending,
    Passed,
    PieceTaken,
    asked_movements,
    asked_pieces,
    asked_threads,
)
from armorplan.app.bringing.round_questions import Shaping
from armorplan.app.bringing.row_questions import asked_rows
from armorplan.app.bringing.rows_taken import Row, rows_links
from armorplan.app.bringing.shape_questions import asked_shapes, first_parts
from armorplan.app.bringing.shaping_questions import (
    Coating,
    asked_coatings,
    asked_shaping,
)
from armorplan.app.bringing.strap_questions import Closing, asked_closings
from armorplan.app.bringing.twin_questions import Folding, asked_twins
from armorplan.app.bringing.unit_questions import asked_unit
from armorplan.app.bringing.wearer_questions import WornBy, asked_wearer, limbs_of
from armorplan.files.bare_pattern import in_words
from armorplan.geometry.brought.model import SortedOut
from armorplan.kernel.stopping import ShouldStop, go_on, never
from armorplan.pattern.parts import Part
from armorplan.workshop.shelf import Shelf


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """All that is taken for true, and all that was asked for it.

    Attributes:
        questions: in order, answered or not.
        title: what the pattern is called.
        mm_each: what one unit of the file is, mm.
        sorted_out: the shapes in mm, as they are taken now.
        drawn: all parts that are drawn; ids of parts, holes and slots are keys of shapes.
        parts: those of them that are written, with their kinds.
        folding: which of the drawn stand for others.
        names: what each drawn part is called, by key: of those that are written, what they become.
    """

    questions: tuple[Question, ...]
    title: str
    mm_each: float
    sorted_out: SortedOut
    drawn: tuple[Part, ...] = ()
    parts: tuple[Part, ...] = ()
    folding: Folding = field(default_factory=lambda: Folding(kept=()))
    names: Mapping[str, str] = field(default_factory=dict)
    leathers: tuple[tuple[str, Leather], ...] = ()
    rows: tuple[Row, ...] = ()
    threads: tuple[Passed, ...] = ()
    closings: tuple[Closing, ...] = ()
    pieces: tuple[PieceTaken, ...] = ()
    movements: tuple[Bending, ...] = ()
    worn: WornBy = field(default_factory=WornBy)
    shaping: tuple[Shaping, ...] = ()
    coatings: tuple[Coating, ...] = ()


@dataclass(frozen=True, slots=True)
class _OnShelf:
    """What can be named: one shelf is not another, even if it holds the same."""

    leathers: tuple[str, ...]
    treatments: tuple[str, ...]
    shelf: Shelf

    def __hash__(self) -> int:
        return hash((self.leathers, self.treatments))


def standing(bringing: Bringing, shelf: Shelf, *, should_stop: ShouldStop = never) -> Standing:
    """Return what the answers make of the drawing.

    Seconds for a large drawing; what was reckoned for the value before is found again.

    Raises:
        StoppedError: it is no longer wanted.
    """
    on_shelf = _OnShelf(
        tuple(leather.id for leather in shelf.leathers),
        tuple(treatment.id for treatment in shelf.treatments),
        shelf,
    )
    return _standing(bringing, on_shelf, Stop(should_stop))


def title_of(bringing: Bringing) -> str:
    """Return what the pattern is called: as said, else after its file."""
    if bringing.name:
        return bringing.name
    stem = bringing.drawing.name.rpartition("/")[2].rpartition(".")[0] or bringing.drawing.name
    words = in_words(stem)
    return capital(words) or "Pattern"


@lru_cache(maxsize=16)
def _standing(bringing: Bringing, on_shelf: _OnShelf, stop: Stop) -> Standing:
    asking = Asking(bringing)
    mm_each = asked_unit(asking)
    found = asked_shapes(asking, mm_each, stop)
    drawn = parts_of(found)
    begun = Standing(
        questions=asking.questions,
        title=title_of(bringing),
        mm_each=mm_each,
        sorted_out=found,
        drawn=drawn,
    )
    go_on(stop.ask)
    if not drawn:
        return begun
    return _of_parts(asking, begun, on_shelf, stop)


def _of_parts(asking: Asking, begun: Standing, on_shelf: _OnShelf, stop: Stop) -> Standing:
    is_named = ask_names(asking, begun.drawn)
    drawn = begun.drawn if is_named else tuple(replace(part, name="") for part in begun.drawn)
    order = first_parts(asking.bringing, begun.mm_each, begun.sorted_out, stop)
    names = numbered_names(drawn, asking.bringing, order)
    folding = asked_twins(asking, drawn, names, stop=stop)
    go_on(stop.ask)
    parts = ask_kinds(asking, folding.kept, names)
    said = said_facts(asking.bringing, Fact.NAME)
    names |= written_names(parts, said, folding.sides)
    names |= {twin: f"twin of {names[key]}" for twin, key in folding.twin_of.items()}
    layers = {s.key: s.layer or s.colour for s in begun.sorted_out.shapes}
    leathers = ask_leathers(asking, parts, layers=layers, known=on_shelf.leathers)
    parts = tuple(
        replace(p, material=leathers[p.id].leather, thickness_mm=leathers[p.id].thickness_mm)
        for p in parts
    )
    by_id = {part.id: part for part in parts}
    matches = asked_rows(asking, folding.kept, names, stop)
    rows = asked_joints(asking, matches, by_id, names=names, fasteners=on_shelf.shelf.fasteners)
    single = {key: part for key, part in by_id.items() if key not in folding.counts}
    threads = asked_threads(asking, single, names)
    closings = asked_closings(asking, rows, single, sides=folding.sides, names=names)
    links = (*rows_links(rows), *((each.part, each.of) for each in threads))
    pieces = asked_pieces(
        asking, by_id, links=links, sides=folding.sides, names=names, title=begun.title
    )
    both = frozenset(part for piece in pieces if piece.mirrored for part in piece.parts)
    names |= written_names(parts, said, both)
    movements = asked_movements(asking, rows, by_id, both=both, names=names)
    likely = limbs_of(pieces, by_id, names=names, closings=closings, bendings=movements)
    worn = asked_wearer(asking, likely, by_id, on_shelf.shelf.measures)
    return replace(
        begun,
        parts=parts,
        folding=folding,
        names=names,
        leathers=tuple(leathers.items()),
        rows=rows,
        threads=threads,
        closings=closings,
        pieces=pieces,
        movements=movements,
        worn=worn,
        shaping=asked_shaping(
            asking, rows, by_id, shapes=begun.sorted_out.shapes, both=both, names=names
        ),
        coatings=asked_coatings(asking, on_shelf.treatments),
        questions=asking.questions,
    )
