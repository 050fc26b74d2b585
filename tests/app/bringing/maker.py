"""A maker who knows the hand-made folder, and answers only what is asked: the suggestion, or better."""

from __future__ import annotations

from math import dist

from samples.unnamed_drawing import INCH_MM, Copy, copies, holes_on_page
from samples.unnamed_parts import PARTS, PIVOTS, ROWS

from armorplan.app.bringing.answering import Fact, answered, with_fact
from armorplan.app.bringing.model import Bringing, Question, QuestionKind
from armorplan.app.bringing.questions import open_questions
from armorplan.app.bringing.standing import Standing, standing
from armorplan.geometry.matching.model import RowMatch
from armorplan.workshop.shelf import Shelf

TRUE_PAIRS = {frozenset(pair) for _, pairs, _, _ in ROWS for pair in pairs}
TRUE_PAIRS |= {frozenset(pair) for pair in PIVOTS}
OUTER = {frozenset(pair): pair[0] for _, pairs, _, _ in ROWS for pair in pairs}
OUTER |= {frozenset(pair): pair[0] for pair in PIVOTS}
KINDS = {part.id: part.kind for part in PARTS}
HOLE_PARTS = {hole: part.id for part in PARTS for hole in part.holes}
_NEAR_MM = 1.0


class Maker:
    """Answers questions, and counts."""

    def __init__(self, bringing: Bringing, shelf: Shelf) -> None:
        self.bringing = bringing
        self._shelf = shelf
        self.count = 0
        self.asked: list[str] = []

    def work(self) -> Bringing:
        """Answer until nothing is open."""
        while True:
            waiting = open_questions(self.bringing, self._shelf)
            if not waiting:
                return self.bringing
            self._answer(waiting[0])
            assert self.count < 200, "questions without an end"

    def _said(self, about: str, choice: str) -> None:
        self.bringing = answered(self.bringing, about, choice)
        self.count += 1
        self.asked.append(f"{about} -> {choice}")

    def _answer(self, question: Question) -> None:
        self._said(question.id, self._choice(question))
        if question.kind is QuestionKind.KINDS:
            names = known(standing(self.bringing, self._shelf))
            for key in question.shapes:
                taken = question.taken if question.answer else self.bringing.answer(question.id)
                if KINDS[names[key]] != taken:
                    self.bringing = with_fact(self.bringing, key, Fact.KIND, KINDS[names[key]])
                    self.count += 1
                    self.asked.append(f"{names[key]} is a {KINDS[names[key]]}")

    def _choice(self, question: Question) -> str:
        stands = standing(self.bringing, self._shelf)
        better = {
            QuestionKind.UNIT: _true_unit,
            QuestionKind.TWINS: _left_one,
            QuestionKind.ROW: _true_row,
            QuestionKind.ROWS: _true_rows,
            QuestionKind.OUTSIDE: _outer,
        }.get(question.kind)
        return better(question, stands) if better else question.suggested


def known(stands: Standing) -> dict[str, str]:
    """Return what the hand-made folder calls parts, holes and slots that are drawn, by key."""
    spots = holes_on_page()
    found: dict[str, str] = {}
    for part in stands.drawn:
        for hole in part.holes:
            found[hole.id] = _nearest(hole.centre, spots)
        for slot in part.slots:
            xs, ys = [x for x, _ in slot.outline], [y for _, y in slot.outline]
            middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
            found[slot.id] = _nearest(middle, spots)
        found[part.id] = HOLE_PARTS[found[part.holes[0].id]]
    return found


def _nearest(at: tuple[float, float], spots: dict[tuple[float, float], str]) -> str:
    near = min(spots, key=lambda spot: dist(spot, at))
    assert dist(near, at) < _NEAR_MM, (at, near)
    return spots[near]


def is_true(match: RowMatch, stands: Standing) -> bool:
    """Tell whether the rows belong together in the hand-made folder, from either end."""
    names = known(stands)
    pairs = [frozenset({names[a], names[b]}) for a, b in match.pairs]
    straight = set(pairs) <= TRUE_PAIRS
    ends = [b for _, b in match.pairs][::-1]
    turned = {frozenset({names[a], names[b]}) for (a, _), b in zip(match.pairs, ends, strict=True)}
    return straight or turned <= TRUE_PAIRS


def _true_unit(question: Question, _stands: Standing) -> str:
    return next(c.key for c in question.choices if abs(float(c.key) / INCH_MM - 1) < 1e-3)


def _true_row(question: Question, stands: Standing) -> str:
    fitting = [match.key for match in question.matches if is_true(match, stands)]
    return fitting[0] if fitting else "none"


def _true_rows(question: Question, stands: Standing) -> str:
    all_true = all(is_true(match, stands) for match in question.matches)
    return "all" if all_true else question.choices[-1].key


def _outer(question: Question, stands: Standing) -> str:
    if question.id == "outside":
        return question.suggested
    names = known(stands)
    if {choice.key for choice in question.choices} == set(question.shapes):
        one, other = question.shapes
        outer = _outer_of(names[one], names[other])
        return one if names[one] == outer else other
    rows = [(names[m.first], names[m.second]) for m in question.matches]
    kinds = {KINDS[_outer_of(*row)] for row in rows}
    return kinds.pop() if len(kinds) == 1 else "each"


def _outer_of(one: str, other: str) -> str:
    both = {one, other}
    return next(
        HOLE_PARTS[outer]
        for pair, outer in OUTER.items()
        if {HOLE_PARTS[hole] for hole in pair} == both
    )


def _left_one(question: Question, stands: Standing) -> str:
    """Return the twin that is not drawn turned over; of other questions about twins, the usual."""
    if not question.id.startswith("hand:"):
        return question.suggested
    return next(c.key for c in question.choices if not _copy(c.key, stands).over)


def _copy(key: str, stands: Standing) -> Copy:
    names = known(stands)
    part = next(part for part in stands.drawn if part.id == key)
    at = part.holes[0].centre
    name = names[part.holes[0].id]
    return min(
        (copy for copy in copies() if copy.part.id == names[key]),
        key=lambda copy: dist(copy.place(copy.part.holes[name][0]), at),
    )
