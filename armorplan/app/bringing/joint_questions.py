"""How what belongs together is joined: turning or fast, which lies outside, on the wearer, with what."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from math import dist

from armorplan.app.bringing.asking import EACH, NOT_ALL, USUAL, Asking, a, capital, choices, listed
from armorplan.app.bringing.fastener_questions import asked_fasteners
from armorplan.app.bringing.loop_questions import asked_loops
from armorplan.app.bringing.model import Question, QuestionKind
from armorplan.app.bringing.row_words import match_words
from armorplan.app.bringing.rows_taken import Row, from_the_top, hole_of
from armorplan.app.bringing.splitting import Single, asked_of_all
from armorplan.geometry.areas import rectangle_mm
from armorplan.geometry.matching.model import Meeting, RowMatch
from armorplan.pattern.parts import Part, PartKind
from armorplan.workshop.shelf import Fastener

TURNING, FIXED = "turning", "fixed"
WEARER, DRAWN = "wearer", "drawn"
_MANY = 2
_PIVOTS = 2
_APART = 0.6
"""Two holes further apart than this share of a plate's width are pivots at its ends."""
_LONG_STRAP_MM = 120.0
"""A longer strap is set where it sits on the wearer (common practice, no source)."""
_TURN_IN = frozenset({PartKind.LAME, PartKind.COP, PartKind.PLATE})
_OUTERMOST = (
    PartKind.TRIM,
    PartKind.STRAP,
    PartKind.COP,
    PartKind.PLATE,
    PartKind.LAME,
    PartKind.KEEPER,
    PartKind.INTERNAL_LEATHER,
    PartKind.LINING,
)
"""Which kind usually lies outside of which (common practice, no source)."""


def asked_joints(
    asking: Asking,
    matches: Sequence[RowMatch],
    parts: Mapping[str, Part],
    *,
    names: dict[str, str],
    fasteners: Sequence[Fastener],
) -> tuple[Row, ...]:
    """Ask how all that belongs together is joined."""
    rows = [from_the_top(Row(match=match), parts) for match in matches]
    rows = _ask_turning(asking, rows, parts, names)
    rows = _ask_outside(asking, rows, parts, names)
    rows = _ask_on_wearer(asking, rows, parts, names)
    rows += asked_loops(asking, rows, parts, names)
    return tuple(asked_fasteners(asking, rows, parts, fasteners))


# --- pivots -------------------------------------------------------------------------------------


def _is_pivots(match: RowMatch, parts: Mapping[str, Part]) -> bool:
    """Tell whether holes lie at both ends of two plates that may turn on each other."""
    both = (parts[match.first], parts[match.second])
    if match.first == match.second or any(part.kind not in _TURN_IN for part in both):
        return False
    if match.meeting is Meeting.HOLE:
        return True
    if len(match.pairs) != _PIVOTS:
        return False
    return any(
        dist(
            hole_of(parts, part.id, match.pairs[0][at]).centre,
            hole_of(parts, part.id, match.pairs[1][at]).centre,
        )
        >= _APART * rectangle_mm(part.outline)[0]
        for at, part in enumerate(both)
    )


def _ask_turning(
    asking: Asking, rows: list[Row], parts: Mapping[str, Part], names: dict[str, str]
) -> list[Row]:
    pivots = [row for row in rows if _is_pivots(row.match, parts)]
    if not pivots:
        return rows
    question = Question(
        id="turning",
        kind=QuestionKind.TURNING,
        text="Single holes at the ends look like pivots: "
        f"{listed([match_words(row.match, names) for row in pivots])}. Do the parts turn on them?",
        choices=choices(
            (TURNING, "They turn", "Fasteners that leave play; the limb bends there."),
            (FIXED, "They hold fast"),
        ),
        suggested=TURNING,
        shapes=_parts_of(pivots),
        matches=tuple(row.match for row in pivots),
        settles=len(pivots),
    )
    told = [_single(row, "Do the parts turn there", names) for row in pivots]
    taken = asked_of_all(asking, question, told)
    return [replace(row, turns=taken.get(row.match.key) == TURNING) for row in rows]


def _parts_of(rows: Iterable[Row]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(p for row in rows for p in (row.match.first, row.match.second)))


def _single(row: Row, asked: str, names: dict[str, str]) -> Single:
    return Single(
        key=row.match.key,
        text=f"{asked}: {match_words(row.match, names)}?",
        shapes=_parts_of([row]),
        matches=(row.match,),
    )


# --- which lies outside ---------------------------------------------------------------------------


def _ask_outside(
    asking: Asking, rows: list[Row], parts: Mapping[str, Part], names: dict[str, str]
) -> list[Row]:
    """Ask of rows between parts of two kinds together, of others one by one."""
    near = _steps_from_cop(rows, parts)
    bundles: dict[tuple[PartKind, PartKind], list[Row]] = {}
    alone: list[Row] = []
    for row in rows:
        kinds = sorted(
            {parts[row.match.first].kind, parts[row.match.second].kind}, key=_OUTERMOST.index
        )
        if len(kinds) == 1:
            alone.append(row)
        else:
            bundles.setdefault((kinds[0], kinds[1]), []).append(row)
    outer = {r.match.key: r.match.first for r in alone if r.match.first == r.match.second}
    singly = len(bundles) < _MANY or asking.put(_all_kinds_question(bundles, names)) == EACH
    for kinds_of, bundle in bundles.items():
        taken = kinds_of[0].value
        if singly:
            taken = asking.put(_kinds_question(kinds_of, bundle, names))
        if taken == EACH:
            alone += bundle
        else:
            outer |= {row.match.key: _of_kind(row, PartKind(taken), parts) for row in bundle}
    for pair in dict.fromkeys((r.match.first, r.match.second) for r in alone):
        if pair[0] != pair[1]:
            of_pair = [r for r in alone if (r.match.first, r.match.second) == pair]
            guess = _guess_outer(pair, parts, near)
            taken = asking.put(_pair_question(pair, guess, of_pair, names))
            outer |= {row.match.key: taken for row in of_pair}
    return [replace(row, outer=outer[row.match.key]) for row in rows]


def _of_kind(row: Row, kind: PartKind, parts: Mapping[str, Part]) -> str:
    return row.match.first if parts[row.match.first].kind is kind else row.match.second


def _all_kinds_question(
    bundles: Mapping[tuple[PartKind, PartKind], Sequence[Row]], names: dict[str, str]
) -> Question:
    told = ", ".join(f"{one.value} over {other.value}" for one, other in bundles)
    rows = [row for bundle in bundles.values() for row in bundle]
    return Question(
        id="outside",
        kind=QuestionKind.OUTSIDE,
        text=f"Which lies outside? Usual is: {told}. That is so for "
        f"{listed([match_words(row.match, names) for row in rows], 8)}.",
        choices=choices((USUAL, "As usual"), (EACH, NOT_ALL, "First of each two kinds.")),
        suggested=USUAL,
        shapes=_parts_of(rows),
        matches=tuple(row.match for row in rows),
        settles=len(rows),
    )


def _kinds_question(
    kinds: tuple[PartKind, PartKind], bundle: Sequence[Row], names: dict[str, str]
) -> Question:
    one, other = (kind.value for kind in kinds)
    told = listed([match_words(row.match, names) for row in bundle], 4)
    ways = [(one, f"The {one} lies outside"), (other, f"The {other} lies outside")]
    if len(bundle) > 1:
        ways.append((EACH, NOT_ALL))
    return Question(
        id=f"outside:{one}+{other}",
        kind=QuestionKind.OUTSIDE,
        text=f"Which lies outside where {a(one)} meets {a(other)}? {told}.",
        choices=choices(*ways),
        suggested=one,
        shapes=_parts_of(bundle),
        matches=tuple(row.match for row in bundle),
        settles=len(bundle),
    )


def _pair_question(
    pair: tuple[str, str], outer: str, rows: Sequence[Row], names: dict[str, str]
) -> Question:
    ordered = (outer, next(part for part in pair if part != outer))
    return Question(
        id=f"outside:{pair[0]}+{pair[1]}",
        kind=QuestionKind.OUTSIDE,
        text=f"Which lies outside, {names[pair[0]]} or {names[pair[1]]}?",
        choices=choices(*((part, capital(f"{names[part]} lies outside")) for part in ordered)),
        suggested=outer,
        shapes=pair,
        matches=tuple(row.match for row in rows),
        settles=len(rows),
    )


def _steps_from_cop(rows: Iterable[Row], parts: Mapping[str, Part]) -> dict[str, int]:
    """Return how many rows lie between each part and the nearest cop."""
    beside: dict[str, set[str]] = {}
    for row in rows:
        beside.setdefault(row.match.first, set()).add(row.match.second)
        beside.setdefault(row.match.second, set()).add(row.match.first)
    found = {key: 0 for key, part in parts.items() if part.kind is PartKind.COP}
    edge = sorted(found)
    while edge:
        further = sorted({other for key in edge for other in beside.get(key, ())} - set(found))
        found |= dict.fromkeys(further, found[edge[0]] + 1)
        edge = further
    return found


def _guess_outer(pair: tuple[str, str], parts: Mapping[str, Part], near: dict[str, int]) -> str:
    """Guess that the part nearer to the cop, or of the more outward kind, lies outside."""
    far = len(parts)
    return min(
        pair,
        key=lambda key: (_OUTERMOST.index(parts[key].kind), near.get(key, far), pair.index(key)),
    )


# --- on the wearer --------------------------------------------------------------------------------


def _ask_on_wearer(
    asking: Asking, rows: list[Row], parts: Mapping[str, Part], names: dict[str, str]
) -> list[Row]:
    straps = [row for row in rows if not row.turns and _long_strap(row.match, parts)]
    if not straps:
        return rows
    question = Question(
        id="on_wearer",
        kind=QuestionKind.ON_WEARER,
        text=f"Where do the straps sit: {listed([match_words(r.match, names) for r in straps])}?",
        choices=choices(
            (WEARER, "Where they sit on the wearer", "Marked at the dry fit, punched then."),
            (DRAWN, "Where they are drawn"),
        ),
        suggested=WEARER,
        shapes=_parts_of(straps),
        matches=tuple(row.match for row in straps),
        settles=len(straps),
    )
    told = [_single(row, "Where does the strap sit", names) for row in straps]
    taken = asked_of_all(asking, question, told)
    return [replace(row, on_wearer=taken.get(row.match.key) == WEARER) for row in rows]


def _long_strap(match: RowMatch, parts: Mapping[str, Part]) -> bool:
    both = (parts[match.first], parts[match.second])
    return match.first != match.second and any(
        part.kind is PartKind.STRAP and rectangle_mm(part.outline)[0] > _LONG_STRAP_MM
        for part in both
    )
