"""What each part is: its name, its kind, its leather."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from math import dist

from armorplan.app.bringing.answering import Fact
from armorplan.app.bringing.asking import Asking, a, capital, choices, counted, listed
from armorplan.app.bringing.facts import said_facts
from armorplan.app.bringing.model import Question, QuestionKind
from armorplan.app.bringing.splitting import Single, asked_of_all
from armorplan.geometry.areas import rectangle_mm
from armorplan.geometry.widths import STRAP_SHAPE
from armorplan.pattern.parts import Part, PartKind

_STRAP_WIDE_MM = 60.0
_KEEPER_LONG_MM, _KEEPER_WIDE_MM = 110.0, 30.0
_TRIM_LONG_MM = 80.0
_LAME_SHAPE = 1.9
_ENDS, _LOOP = 2, 0.6
_SAID = {
    **dict.fromkeys(("greave", "cuisse", "vambrace", "rerebrace", "gorget"), PartKind.PLATE),
    **dict.fromkeys(("breastplate", "backplate", "shield"), PartKind.PLATE),
    **dict.fromkeys(("knee", "elbow", "shoulder", "poleyn", "couter", "pauldron"), PartKind.COP),
    **dict.fromkeys(("tab", "belt", "tongue"), PartKind.STRAP),
    "loop": PartKind.KEEPER,
    "hinge": PartKind.INTERNAL_LEATHER,
    **dict.fromkeys(("collar", "band", "fauld", "tasset"), PartKind.LAME),
    **dict.fromkeys(("border", "edging", "binding"), PartKind.TRIM),
}
"""What makers of armour call parts, and what kind that usually is (common practice, no source)."""
_ALL = frozenset(kind.value for kind in PartKind)
"""Sizes by which a kind is guessed; only a suggestion (common practice, no source)."""


def ask_names(asking: Asking, parts: Iterable[Part]) -> bool:
    """Ask whether the lettering names the parts; return whether it does."""
    named = [part for part in parts if part.name]
    if not named:
        return True
    question = Question(
        id="names",
        kind=QuestionKind.NAMES,
        text=f"{counted(len(named), 'part')} {'has' if len(named) == 1 else 'have'} a name in the "
        f"drawing: {listed([part.name for part in named])}.",
        choices=choices(
            ("drawn", "Keep these names"), ("numbered", "Name all by kind and number")
        ),
        suggested="drawn",
        sure=True,
        shapes=tuple(part.id for part in named),
        settles=len(named),
    )
    return asking.put(question) == "drawn"


# --- kinds --------------------------------------------------------------------------------------


def ask_kinds(
    asking: Asking, parts: tuple[Part, ...], names: Mapping[str, str]
) -> tuple[Part, ...]:
    """Ask of what kind the parts are, bundled by what is guessed; return them with their kinds."""
    said = {
        key: kind for key, kind in said_facts(asking.bringing, Fact.KIND).items() if kind in _ALL
    }
    has_lames = any(_guess(part, has_lames=False) is PartKind.LAME for part in parts)
    bundles: dict[PartKind, list[Part]] = {}
    for part in parts:
        if part.id not in said:
            bundles.setdefault(_guess(part, has_lames=has_lames), []).append(part)
    kinds = {key: PartKind(kind) for key, kind in said.items()}
    for kind in PartKind:
        if kind in bundles:
            question = _kind_question(kind, bundles[kind], names)
            singles = [_single(part, names) for part in bundles[kind]]
            taken = asked_of_all(asking, question, singles)
            kinds |= {key: PartKind(each) for key, each in taken.items()}
    return tuple(replace(part, kind=kinds[part.id]) for part in parts)


def _single(part: Part, names: Mapping[str, str]) -> Single:
    text = f"What is {names[part.id]} ({_size_words(part)})?"
    return Single(key=part.id, text=text, shapes=(part.id,))


def _guess(part: Part, *, has_lames: bool) -> PartKind:
    """Guess a kind by the name where it says one, else by size and shape."""
    return _guess_by_name(part.name.lower()) or _guess_by_shape(part, has_lames=has_lames)


def _guess_by_name(words: str) -> PartKind | None:
    for kind in sorted(PartKind, key=lambda kind: -len(kind.value)):
        if kind.value in words:
            return kind
    # The last word says what it is, those before it where: a shoulder band is a band.
    said = (_SAID[word] for word in re.findall(r"[a-z]+", words)[::-1] if word in _SAID)
    return next(said, None)


def _guess_by_shape(part: Part, *, has_lames: bool) -> PartKind:
    long_mm, wide_mm = rectangle_mm(part.outline)
    if long_mm >= STRAP_SHAPE * wide_mm and wide_mm <= _STRAP_WIDE_MM:
        return PartKind.STRAP
    if long_mm <= _KEEPER_LONG_MM and wide_mm <= _KEEPER_WIDE_MM and long_mm >= 2 * wide_mm:
        return PartKind.KEEPER if _is_loop(part, long_mm) else PartKind.STRAP
    if long_mm <= _TRIM_LONG_MM:
        return PartKind.TRIM
    if long_mm >= _LAME_SHAPE * wide_mm:
        return PartKind.LAME
    return PartKind.COP if has_lames else PartKind.PLATE


def _is_loop(part: Part, long_mm: float) -> bool:
    """Tell whether a short strap is a keeper: no holes, or one at each end; a tab has its at one."""
    if len(part.holes) != _ENDS:
        return not part.holes
    return dist(part.holes[0].centre, part.holes[1].centre) >= _LOOP * long_mm


def _kind_question(kind: PartKind, parts: list[Part], names: Mapping[str, str]) -> Question:
    sizes = ", ".join(dict.fromkeys(_size_words(part) for part in parts[:4]))
    many = f"{kind.value}s" if kind is not PartKind.INTERNAL_LEATHER else "internal leathers"
    text = (
        f"{listed([names[part.id] for part in parts])} ({sizes}{' …' if len(parts) > 4 else ''}): "  # noqa: PLR2004
    )
    text += f"{a(kind.value)}?" if len(parts) == 1 else f"{len(parts)} {many}?"
    others = [other for other in PartKind if other is not kind]
    return Question(
        id=f"kind:{kind.value}",
        kind=QuestionKind.KINDS,
        text=capital(text),
        choices=choices(*((each.value, each.value.capitalize()) for each in (kind, *others))),
        suggested=kind.value,
        sure=kind is PartKind.STRAP,
        shapes=tuple(part.id for part in parts),
        settles=len(parts),
    )


def _size_words(part: Part) -> str:
    long_mm, wide_mm = rectangle_mm(part.outline)
    return f"{long_mm:.0f} × {wide_mm:.0f} mm"
