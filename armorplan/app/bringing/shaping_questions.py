"""How the parts get their shape, and what is put on the leather."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from armorplan.app.bringing.asking import Asking, choices, counted, listed
from armorplan.app.bringing.model import Question, QuestionKind
from armorplan.app.bringing.round_questions import FLAT, Shaping, asked_round
from armorplan.app.bringing.row_words import match_words
from armorplan.app.bringing.rows_taken import Row
from armorplan.app.bringing.splitting import Single, asked_of_all
from armorplan.geometry.brought.model import Shape, ShapeKind
from armorplan.geometry.matching.model import Meeting
from armorplan.pattern.joining import FormKind, Route
from armorplan.pattern.parts import Part, PartKind

_DRAWN = "drawn"
_ENDS = 2
_FOLD_WORDS = ("fold", "bend", "score", "crease")
_RIGHT_DEG = 90.0
_FOLD_MM = 3.0


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
        *asked_round(asking, PartKind.LAME, parts, rows=rows, both=both, names=names),
        *asked_round(asking, PartKind.COP, parts, rows=rows, both=both, names=names),
        *_ask_closures(asking, rows, parts, both=both, names=names),
        *_ask_folds(asking, parts, shapes, names),
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
    question = Question(
        id="closure",
        kind=QuestionKind.SHAPING,
        text=f"{counted(len(drawn), 'row')} between {listed([names[part] for part in its])} "
        f"{'does' if len(drawn) == 1 else 'do'} not lie flat. "
        f"{'Does it' if len(drawn) == 1 else 'Do they'} draw the leather into shape?",
        choices=choices((_DRAWN, "Drawn into shape"), (FLAT, "Worked flat")),
        suggested=_DRAWN,
        shapes=its,
        matches=tuple(row.match for row in drawn),
        settles=len(drawn),
    )
    singles = [
        Single(
            key=row.match.key,
            text=f"Does this row draw the leather into shape: {match_words(row.match, names)}?",
            shapes=(row.match.first, row.match.second),
            matches=(row.match,),
        )
        for row in drawn
    ]
    taken = asked_of_all(asking, question, singles)
    drawn = [row for row in drawn if taken[row.match.key] == _DRAWN]
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
    asking: Asking, parts: Mapping[str, Part], shapes: Sequence[Shape], names: dict[str, str]
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
    question = Question(
        id="folds",
        kind=QuestionKind.FOLDS,
        text=f"{counted(len(lines), 'straight line')} in parts "
        f"{'is' if len(lines) == 1 else 'are'} not cut. Is the leather folded there?",
        choices=choices(*ways),
        suggested=ways[0][0],
        shapes=tuple(line.key for line in lines),
        settles=len(lines),
    )
    singles = [
        Single(
            key=line.key,
            text=f"Is {names[line.inside]} folded at this line?",
            shapes=(line.key, line.inside),
        )
        for line in lines
    ]
    taken = asked_of_all(asking, question, singles)
    return [_line_form(line, taken[line.key]) for line in lines if taken[line.key] != "engraved"]


def _line_form(line: Shape, taken: str) -> Shaping:
    is_fold = taken == "fold"
    return Shaping(
        kind=FormKind.FOLD if is_fold else FormKind.BEND,
        route=Route.WET_FOLD if is_fold else Route.DAMP,
        parts=(line.inside,),
        radius_mm=_FOLD_MM if is_fold else None,
        angle_deg=_RIGHT_DEG,
        line=line.key,
    )


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
