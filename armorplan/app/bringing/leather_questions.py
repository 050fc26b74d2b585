"""What the parts are cut from: by kind, all alike, or by the layer they are drawn on."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from armorplan.app.bringing.answering import Fact
from armorplan.app.bringing.asking import EACH, NOT_ALL, Asking, choices, counted
from armorplan.app.bringing.facts import said_facts
from armorplan.app.bringing.model import Question, QuestionKind
from armorplan.files.typed_numbers import typed_number
from armorplan.pattern.parts import Part, PartKind

_TWO, _MANY = 2, 8
"""Of so many layers it is asked what is cut from which; more are no leathers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leather:
    """A leather of the shelf and the thickness it is bought in, mm."""

    leather: str
    thickness_mm: float


USUAL = {
    PartKind.PLATE: Leather(leather="shell_plate", thickness_mm=4.0),
    PartKind.LAME: Leather(leather="cop_and_lame", thickness_mm=3.6),
    PartKind.COP: Leather(leather="cop_and_lame", thickness_mm=3.6),
    PartKind.STRAP: Leather(leather="strap", thickness_mm=2.8),
    PartKind.KEEPER: Leather(leather="keeper", thickness_mm=2.0),
    PartKind.TRIM: Leather(leather="trim", thickness_mm=2.8),
    PartKind.LINING: Leather(leather="suede_lining", thickness_mm=1.2),
    PartKind.INTERNAL_LEATHER: Leather(leather="articulation", thickness_mm=2.4),
}
"""What a kind is usually cut from (common practice, no source; each within its leather's range)."""


def ask_leathers(
    asking: Asking,
    parts: tuple[Part, ...],
    *,
    layers: Mapping[str, str],
    known: Iterable[str],
) -> dict[str, Leather]:
    """Ask what the parts are cut from; return the leather of each.

    Args:
        asking: what is asked.
        parts: parts with their kinds.
        layers: the layer or colour that each part is drawn on.
        known: ids of the leathers on the shelf.
    """
    kinds = sorted({part.kind for part in parts}, key=tuple(PartKind).index)
    told = "; ".join(f"{kind.value}s of {_words(USUAL[kind]).lower()}" for kind in kinds)
    one = USUAL[PartKind.COP]
    ways: list[tuple[str, str]] = [
        ("usual", "What is usual for each kind"),
        ("one", f"All of one leather, {one.thickness_mm:g} mm"),
    ]
    if len(kinds) > 1:
        ways.append((EACH, NOT_ALL))
    named = sorted({layers.get(part.id, "") for part in parts})
    if _TWO <= len(named) <= _MANY:
        ways.append(("layers", f"A leather for each of the {len(named)} layers they are drawn on"))
    taken = asking.put(
        Question(
            id="leather",
            kind=QuestionKind.MATERIAL,
            text=f"What are the parts cut from? Usual: {told}.",
            choices=choices(*ways),
            suggested="usual",
            shapes=tuple(part.id for part in parts),
            settles=len(parts),
        )
    )
    found = {part.id: one if taken == "one" else USUAL[part.kind] for part in parts}
    found |= _ask_groups(asking, taken, parts, layers)
    shelf = set(known)
    for key, said in said_facts(asking.bringing, Fact.MATERIAL).items():
        leather, _, thickness = said.partition(":")
        mm = typed_number(thickness) or 0.0
        if key in found and leather in shelf and mm > 0:
            found[key] = Leather(leather=leather, thickness_mm=mm)
    return found


def _ask_groups(
    asking: Asking, taken: str, parts: Sequence[Part], layers: Mapping[str, str]
) -> dict[str, Leather]:
    """Ask of each layer or of each kind where that was chosen; return the leathers of the parts."""
    groups: dict[tuple[str, str], list[Part]] = {}
    for part in parts:
        if taken == "layers":
            layer = layers.get(part.id, "")
            groups.setdefault((layer, f"on '{layer or 'no layer'}'"), []).append(part)
        elif taken == EACH:
            kind = part.kind.value
            groups.setdefault((f"kind:{kind}", f"of the kind {kind}"), []).append(part)
    found: dict[str, Leather] = {}
    for (key, where), its in sorted(groups.items(), key=lambda each: each[0]):
        found |= _ask_some(asking, f"leather:{key}", f"{counted(len(its), 'part')} {where}", its)
    return found


def _ask_some(asking: Asking, about: str, these: str, parts: list[Part]) -> dict[str, Leather]:
    """Ask what some parts are cut from; usual is what most of their kinds are."""
    usual = Counter(USUAL[part.kind] for part in parts).most_common(1)[0][0]
    ways = {_key(leather): leather for leather in (usual, *USUAL.values())}
    taken = asking.put(
        Question(
            id=about,
            kind=QuestionKind.MATERIAL,
            text=f"What {'is' if len(parts) == 1 else 'are'} the {these} cut from?",
            choices=choices(*((key, _words(leather)) for key, leather in ways.items())),
            suggested=_key(usual),
            shapes=tuple(part.id for part in parts),
            settles=len(parts),
        )
    )
    return dict.fromkeys((part.id for part in parts), ways[taken])


def _key(leather: Leather) -> str:
    return f"{leather.leather}:{leather.thickness_mm:g}"


def _words(leather: Leather) -> str:
    return f"{leather.leather.replace('_', ' ').capitalize()}, {leather.thickness_mm:g} mm"
