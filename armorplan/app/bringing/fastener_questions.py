"""What closes the joints: asked once for each size of hole, and once more where it turns."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

from armorplan.app.bringing.asking import EACH, NOT_ALL, USUAL, Asking, choices, counted
from armorplan.app.bringing.model import Choice, Question, QuestionKind
from armorplan.app.bringing.rows_taken import Row, hole_of
from armorplan.pattern.parts import Part
from armorplan.workshop.shelf import CLAMPS, TURNS, Fastener

_MANY = 2
_HOLE_MM = 0.6
"""A fastener goes through a hole that is so much wider or narrower than its own."""


def asked_fasteners(
    asking: Asking, rows: list[Row], parts: Mapping[str, Part], fasteners: Sequence[Fastener]
) -> list[Row]:
    """Ask once for each size of hole, and once more where it turns."""
    bundles: dict[tuple[float, bool], list[Row]] = {}
    for row in rows:
        bundles.setdefault((_usual_mm(row, parts), row.turns), []).append(row)
    asked = [
        (bundle, _fastener_question(bundle, fasteners, hole_mm=hole_mm, turns=turns))
        for (hole_mm, turns), bundle in sorted(bundles.items())
    ]
    singly = len(asked) < _MANY or asking.put(_all_sizes(asked, len(rows))) == EACH
    taken: dict[str, str] = {}
    for bundle, question in asked:
        fastener = asking.put(question) if singly else question.suggested
        taken |= {row.match.key: fastener for row in bundle}
    return [replace(row, fastener=taken[row.match.key]) for row in rows]


def _all_sizes(asked: Sequence[tuple[list[Row], Question]], settles: int) -> Question:
    """Return the question whether each size of hole is closed by what fits it best."""
    told = "; ".join(
        f"{question.text.removeprefix('What closes the ').rstrip('?')}: {question.choices[0].words}"
        for _, question in asked
    )
    return Question(
        id="fasteners",
        kind=QuestionKind.FASTENERS,
        text=f"What closes the joints? What fits the holes best is: {told}.",
        choices=choices(
            (USUAL, "What fits best"),
            (EACH, NOT_ALL, "Of each size of hole."),
        ),
        suggested=USUAL,
        shapes=tuple(dict.fromkeys(key for _, question in asked for key in question.shapes)),
        settles=settles,
    )


def _usual_mm(row: Row, parts: Mapping[str, Part]) -> float:
    match = row.match
    sizes = Counter(
        round(hole_of(parts, part, hole).diameter_mm, 1)
        for pair in match.pairs
        for part, hole in zip((match.first, match.second), pair, strict=True)
    )
    return max(sizes, key=lambda mm: (sizes[mm], mm))


def _fastener_question(
    bundle: Sequence[Row], fasteners: Sequence[Fastener], *, hole_mm: float, turns: bool
) -> Question:
    unwanted = CLAMPS if turns else TURNS
    may = [each for each in fasteners if each.motion != unwanted]
    away = {each.id: round(abs(each.hole_mm - hole_mm), 1) for each in may}
    order = sorted(may, key=lambda each: away[each.id])
    near = [each for each in order if away[each.id] <= _HOLE_MM] or order[:1]
    rest = [each for each in order if each not in near][:3]
    count = sum(len(row.match.pairs) for row in bundle)
    turning = " that turn" if turns else ""
    return Question(
        id=f"fastener:{hole_mm:g}{':turning' if turns else ''}",
        kind=QuestionKind.FASTENERS,
        text=f"What closes the {counted(count, 'joint')}{turning} with holes of {hole_mm:g} mm?",
        choices=tuple(
            Choice(key=each.id, words=each.name, why=f"It needs a hole of {each.hole_mm:g} mm.")
            for each in (*near, *rest)
        ),
        suggested=near[0].id,
        shapes=tuple(dict.fromkeys(p for r in bundle for p in (r.match.first, r.match.second))),
        settles=count,
    )
