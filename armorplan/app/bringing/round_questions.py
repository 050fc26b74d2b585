"""How lames and cops get round the limb; what is small beside them may lie flat."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import degrees, floor, pi

from armorplan.app.bringing.asking import Asking, choices, listed
from armorplan.app.bringing.model import Question, QuestionKind
from armorplan.app.bringing.part_shapes import middle
from armorplan.app.bringing.rows_taken import Row, linked, rows_links
from armorplan.app.bringing.splitting import Single, asked_of_all
from armorplan.geometry.areas import rectangle_mm
from armorplan.pattern.joining import FormKind, Route
from armorplan.pattern.parts import Part, PartKind, Point

FLAT, DISH = "flat", "dish"
_HALF_DEG = 180.0
_LEAST_MM = 1
_SMALL = 0.5
"""What is narrower than this share of the widest it hangs on hardly goes round (no source)."""
_FLAT_WORDS = ("hinge", "tab", "strip")
_STIFF = frozenset({PartKind.PLATE, PartKind.COP, PartKind.LAME})


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


_ROUND = {
    PartKind.LAME: (
        ("damp", "Bent damp round the limb"),
        ("dry", "Bent by hand when dry, after the finish"),
        (FLAT, "Stays flat"),
    ),
    PartKind.COP: (
        (DISH, "Dished damp over a block"),
        ("damp", "Bent damp round the limb"),
        (FLAT, "Stays flat"),
    ),
}


def asked_round(
    asking: Asking,
    kind: PartKind,
    parts: Mapping[str, Part],
    *,
    rows: Sequence[Row],
    both: frozenset[str],
    names: dict[str, str],
) -> list[Shaping]:
    """Ask how the parts of a kind get round; what is small is asked about apart.

    All that hangs together goes round one limb: the widest half round it, what is narrower by less.
    """
    widest_mm = _widest_mm(rows, parts)
    its = [part for part in parts.values() if part.kind is kind]
    small = [part for part in its if _is_small(part, names[part.id], widest_mm[part.id])]
    taken: dict[str, str] = {}
    for bundle, is_small in (([p for p in its if p not in small], False), (small, True)):
        if bundle:
            question = _question(kind, bundle, names, is_small=is_small)
            singles = [
                Single(key=p.id, text=f"How does {names[p.id]} get round?", shapes=(p.id,))
                for p in bundle
            ]
            taken |= asked_of_all(asking, question, singles)
    dished = [part for part in its if taken[part.id] == DISH]
    alike = ([p for p in dished if p.id in both], [p for p in dished if p.id not in both])
    return [
        *(_dish(group) for group in alike if group),
        *(
            _bend(p, Route(taken[p.id]), widest_mm[p.id])
            for p in its
            if taken[p.id] not in (DISH, FLAT)
        ),
    ]


def _question(
    kind: PartKind, its: Sequence[Part], names: dict[str, str], *, is_small: bool
) -> Question:
    named = listed([names[part.id] for part in its])
    ways = sorted(_ROUND[kind], key=lambda way: way[0] != FLAT) if is_small else _ROUND[kind]
    small = f"Small beside what they hang on: {named}. Do they stay flat, as a hinge does?"
    return Question(
        id=f"round:{kind.value}{':small' if is_small else ''}",
        kind=QuestionKind.SHAPING,
        text=small if is_small else f"How do the {kind.value}s get round: {named}?",
        choices=choices(*ways),
        suggested=ways[0][0],
        shapes=tuple(part.id for part in its),
        settles=len(its),
    )


def _across_mm(part: Part) -> float:
    xs = [x for x, _ in part.outline]
    return max(xs) - min(xs)


def _widest_mm(rows: Sequence[Row], parts: Mapping[str, Part]) -> dict[str, float]:
    """Return how wide the widest plate is that each part hangs together with, mm across the page."""
    found: dict[str, float] = {}
    for group in linked(rows_links(rows), parts):
        stiff = [parts[key] for key in group if parts[key].kind in _STIFF]
        found |= dict.fromkeys(group, max((_across_mm(part) for part in stiff), default=0.0))
    return found


def _is_small(part: Part, name: str, widest_mm: float) -> bool:
    is_named = any(word in name.lower().split() for word in _FLAT_WORDS)
    return is_named or (part.kind is PartKind.LAME and _across_mm(part) < _SMALL * widest_mm)


def _dish(its: Sequence[Part]) -> Shaping:
    """Return a dishing over one block, as wide as the parts are on average."""
    wide_mm = sum(rectangle_mm(part.outline)[1] for part in its) / len(its)
    radius_mm = max(round(wide_mm / pi * 2), _LEAST_MM)
    dished = tuple(part.id for part in its)
    return Shaping(kind=FormKind.DISH, route=Route.DAMP, parts=dished, radius_mm=radius_mm)


def _bend(part: Part, route: Route, widest_mm: float) -> Shaping:
    """Return a bend about the line up through the middle of a part, round the limb of the widest."""
    ys = [y for _, y in part.outline]
    x = round(middle(part.outline)[0], 1)
    half_mm = part.thickness_mm / 2
    radius_mm = max(floor(max(widest_mm, _across_mm(part)) / pi - half_mm), _LEAST_MM)
    around_deg = degrees(_across_mm(part) / (radius_mm + half_mm))
    return Shaping(
        kind=FormKind.BEND,
        route=route,
        parts=(part.id,),
        axis=((x, round(min(ys), 1)), (x, round(max(ys), 1))),
        radius_mm=radius_mm,
        angle_deg=min(max(float(round(around_deg)), 1.0), _HALF_DEG),
    )
