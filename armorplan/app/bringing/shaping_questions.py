"""How the parts get their shape, and what is put on the leather."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import floor, pi

from armorplan.app.bringing.asking import Asking, choices, counted, listed
from armorplan.app.bringing.model import Question, QuestionKind
from armorplan.app.bringing.part_shapes import middle
from armorplan.app.bringing.rows_taken import Row
from armorplan.geometry.areas import rectangle_mm
from armorplan.geometry.brought.model import Shape, ShapeKind
from armorplan.geometry.matching.model import Meeting
from armorplan.pattern.joining import FormKind, Route
from armorplan.pattern.parts import Part, PartKind, Point

FLAT = "flat"
_ENDS = 2
_FOLD_WORDS = ("fold", "bend", "score", "crease")
_HALF_DEG, _RIGHT_DEG = 180.0, 90.0
_FOLD_MM = 3.0
_LEAST_MM = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Shaping:
    """One change of shape; ``line`` is the key of the drawn line that it is about."""

    kind: FormKind
    route: Route
    parts: tuple[str, ...]
    radius_mm: float | None = None
    angle_deg: float | None = None
    axis: tuple[Point, Point] | None = None
    line: str = ""
    rows: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Coating:
    """One use of a treatment of the shelf on all parts that take it."""

    use: str
    coats: int
    colour: str = ""


def asked_shaping(
    asking: Asking,
    rows: Sequence[Row],
    parts: Mapping[str, Part],
    *,
    shapes: Sequence[Shape],
    both: frozenset[str],
    names: dict[str, str],
) -> tuple[Shaping, ...]:
    """Ask how lames and cops get round, which rows draw a shape, and which lines are folds.

    What is made once and what is made left and right (``both``) never share a form.
    """
    return (
        *_ask_round(asking, PartKind.LAME, parts, both=both, names=names),
        *_ask_round(asking, PartKind.COP, parts, both=both, names=names),
        *_ask_closures(asking, rows, parts, both=both, names=names),
        *_ask_folds(asking, parts, shapes),
    )


_ROUND = {
    PartKind.LAME: (
        ("damp", "Bent damp round the limb"),
        ("dry", "Bent by hand when dry, after the finish"),
        (FLAT, "They stay flat"),
    ),
    PartKind.COP: (
        ("dish", "Dished damp over a block"),
        ("damp", "Bent damp round the limb"),
        (FLAT, "They stay flat"),
    ),
}


def _ask_round(
    asking: Asking,
    kind: PartKind,
    parts: Mapping[str, Part],
    *,
    both: frozenset[str],
    names: dict[str, str],
) -> list[Shaping]:
    its = [part for part in parts.values() if part.kind is kind]
    if not its:
        return []
    ways = _ROUND[kind]
    taken = asking.put(
        Question(
            id=f"round:{kind.value}",
            kind=QuestionKind.SHAPING,
            text=f"How do the {kind.value}s get round: {listed([names[p.id] for p in its])}?",
            choices=choices(*ways),
            suggested=ways[0][0],
            shapes=tuple(part.id for part in its),
            settles=len(its),
        )
    )
    if taken == FLAT:
        return []
    if taken == "dish":
        alike = ([p for p in its if p.id in both], [p for p in its if p.id not in both])
        return [_dish(group) for group in alike if group]
    return [_bend(part, Route(taken)) for part in its]


def _dish(its: Sequence[Part]) -> Shaping:
    """Return a dishing over one block, as wide as the parts are on average."""
    wide_mm = sum(rectangle_mm(part.outline)[1] for part in its) / len(its)
    radius_mm = max(round(wide_mm / pi * 2), _LEAST_MM)
    dished = tuple(part.id for part in its)
    return Shaping(kind=FormKind.DISH, route=Route.DAMP, parts=dished, radius_mm=radius_mm)


def _bend(part: Part, route: Route) -> Shaping:
    """Return a bend by half a turn about the line up through the middle of a part."""
    xs, ys = [x for x, _ in part.outline], [y for _, y in part.outline]
    x = round(middle(part.outline)[0], 1)
    return Shaping(
        kind=FormKind.BEND,
        route=route,
        parts=(part.id,),
        axis=((x, round(min(ys), 1)), (x, round(max(ys), 1))),
        radius_mm=max(floor((max(xs) - min(xs)) / pi - part.thickness_mm / 2), _LEAST_MM),
        angle_deg=_HALF_DEG,
    )


def _ask_closures(
    asking: Asking,
    rows: Sequence[Row],
    parts: Mapping[str, Part],
    *,
    both: frozenset[str],
    names: dict[str, str],
) -> list[Shaping]:
    stiff = {PartKind.PLATE, PartKind.COP, PartKind.LAME}
    drawn = [
        row
        for row in rows
        if (row.match.meeting is Meeting.DRAWN or row.match.mirrored)
        and not row.turns
        and (row.match.first in both) == (row.match.second in both)
        and {parts[row.match.first].kind, parts[row.match.second].kind} <= stiff
    ]
    if not drawn:
        return []
    its = tuple(dict.fromkeys(p for row in drawn for p in (row.match.first, row.match.second)))
    taken = asking.put(
        Question(
            id="closure",
            kind=QuestionKind.SHAPING,
            text=f"{counted(len(drawn), 'row')} between {listed([names[part] for part in its])} "
            f"{'does' if len(drawn) == 1 else 'do'} not lie flat. Do they draw the leather into shape?",
            choices=choices(("drawn", "They draw it into shape"), (FLAT, "They are worked flat")),
            suggested="drawn",
            shapes=its,
            matches=tuple(row.match for row in drawn),
            settles=len(drawn),
        )
    )
    if taken == FLAT:
        return []
    sides = [[row for row in drawn if (row.match.first in both) == side] for side in (True, False)]
    return [_closure(its) for its in sides if its]


def _closure(rows: Sequence[Row]) -> Shaping:
    closed = dict.fromkeys(part for row in rows for part in (row.match.first, row.match.second))
    return Shaping(
        kind=FormKind.CLOSURE,
        route=Route.BY_SEAM,
        parts=tuple(closed),
        rows=tuple(row.match.key for row in rows),
    )


def _ask_folds(
    asking: Asking, parts: Mapping[str, Part], shapes: Sequence[Shape]
) -> list[Shaping]:
    lines = [
        shape
        for shape in shapes
        if shape.kind is ShapeKind.ENGRAVING
        and not shape.closed
        and len(shape.points) == _ENDS
        and shape.inside in parts
    ]
    if not lines:
        return []
    named = any(word in f"{s.layer} {s.name}".lower() for s in lines for word in _FOLD_WORDS)
    ways = [
        ("engraved", "Only drawn on"),
        ("fold", "Folded damp, a right angle"),
        ("bend", "Bent damp"),
    ]
    if named:
        ways = [ways[1], ways[0], ways[2]]
    taken = asking.put(
        Question(
            id="folds",
            kind=QuestionKind.FOLDS,
            text=f"{counted(len(lines), 'straight line')} in parts "
            f"{'is' if len(lines) == 1 else 'are'} not cut. Is the leather folded there?",
            choices=choices(*ways),
            suggested=ways[0][0],
            shapes=tuple(line.key for line in lines),
            settles=len(lines),
        )
    )
    if taken == "engraved":
        return []
    is_fold = taken == "fold"
    return [
        Shaping(
            kind=FormKind.FOLD if is_fold else FormKind.BEND,
            route=Route.WET_FOLD if is_fold else Route.DAMP,
            parts=(line.inside,),
            radius_mm=_FOLD_MM if is_fold else None,
            angle_deg=_RIGHT_DEG,
            line=line.key,
        )
        for line in lines
    ]


def asked_coatings(asking: Asking, known: Sequence[str]) -> tuple[Coating, ...]:
    """Ask what is put on the leather, of what the shelf has."""
    taken = asking.put(
        Question(
            id="treatments",
            kind=QuestionKind.TREATMENTS,
            text="What is put on the leather? Labels and local codes rule over every caution shown.",
            choices=choices(
                ("usual", "Alcohol dye in two coats, light oil, acrylic finish in two coats"),
                ("oil", "Light oil alone"),
                ("none", "Nothing yet"),
            ),
            suggested="usual",
        )
    )
    if taken == "none":
        return ()
    wanted = [Coating(use="light_oil", coats=1)]
    if taken == "usual":
        colour = asking.put(
            Question(
                id="colour",
                kind=QuestionKind.TREATMENTS,
                text="Which colour is the dye?",
                choices=choices(
                    *((each, each.capitalize()) for each in ("brown", "black", "blue"))
                ),
                suggested="brown",
                typed="colour",
            )
        )
        dye = Coating(use="alcohol_dye", coats=2, colour=colour)
        wanted = [dye, *wanted, Coating(use="acrylic_finish", coats=2)]
    return tuple(each for each in wanted if each.use in known)
