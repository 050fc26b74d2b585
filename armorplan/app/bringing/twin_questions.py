"""Parts that are drawn twice: left and right of one, two of a kind, two sizes that look alike."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from armorplan.app.bringing.asking import Asking, choices, counted, listed
from armorplan.app.bringing.hand_questions import asked_hands
from armorplan.app.bringing.kept import Stop, likenesses_of
from armorplan.app.bringing.model import Question, QuestionKind
from armorplan.app.bringing.splitting import Single, asked_of_all
from armorplan.files.bare_words import likeness_words
from armorplan.geometry.alike.likeness import LookAlike
from armorplan.pattern.parts import Part

SIDES, OWN, COUNT = "sides", "own", "count"
INEXACT_MM = 1.0
"""Mirror twins nearer than this may be meant alike: a drawing by hand is no nearer (no source)."""
_PAIR = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Folding:
    """Which of the drawn parts are written, and what stands for the rest.

    Attributes:
        kept: parts that are written, in the order they are drawn.
        twin_of: by part that is not written the one that stands for it.
        sides: parts that are written once and made left and right.
        counts: parts that are written once and cut several times, with how many.
    """

    kept: tuple[Part, ...]
    twin_of: dict[str, str] = field(default_factory=dict)
    sides: frozenset[str] = frozenset()
    counts: dict[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Class:
    """Parts of one shape, by the hand they have: those alike, and those turned over."""

    alike: tuple[str, ...]
    over: tuple[str, ...] = ()

    @property
    def members(self) -> tuple[str, ...]:
        return (*self.alike, *self.over)

    def pairs(self, place: dict[str, int]) -> tuple[tuple[str, str], ...]:
        """Return who stands for whom, the one drawn first for the other; none where one is left."""
        if self.over:
            ones, others = self.alike, self.over
        else:
            half = len(self.alike) // _PAIR
            ones, others = self.alike[:half], self.alike[half:]
        if len(ones) != len(others):
            return ()
        both = zip(ones, others, strict=True)
        return tuple((min(p, key=place.__getitem__), max(p, key=place.__getitem__)) for p in both)


def asked_twins(
    asking: Asking, parts: tuple[Part, ...], names: dict[str, str], *, stop: Stop
) -> Folding:
    """Ask which parts are left and right of one, or several of one; return what is written."""
    found = likenesses_of(parts, stop)
    place = {part.id: at for at, part in enumerate(parts)}
    classes = _classes(parts, found)
    loose = {p.id for p in parts if not p.holes and not p.slots}
    handed = [c for c in classes if c.over and c.pairs(place)]
    same = [c for c in classes if not c.over and c.pairs(place)]
    pairs = _ask_handed(asking, handed, place, names) if handed else []
    pairs += _ask_inexact(asking, found, {key for c in classes for key in c.members}, names)
    by_id = {part.id: part for part in parts}
    twin_of = asked_hands(asking, pairs, by_id, names=names, stop=stop)
    drawn_both = bool(twin_of)
    pairable = [c for c in same if drawn_both or not loose.issuperset(c.members)]
    if pairable:
        twin_of |= _ask_same(asking, pairable, place, names=names, suggest_sides=drawn_both)
    sides = frozenset(twin_of.values())
    counts: dict[str, int] = {}
    folded = {*twin_of, *sides}
    of_one = [c for c in classes if not c.over and loose.difference(folded).issuperset(c.members)]
    if of_one:
        counted_ones = _ask_counts(asking, of_one, names)
        for each in (c for c in of_one if counted_ones[c.members[0]] == COUNT):
            counts[each.members[0]] = len(each.members)
            twin_of |= dict.fromkeys(each.members[1:], each.members[0])
    kept = tuple(part for part in parts if part.id not in twin_of)
    _tell_near(asking, [f for f in found if not f.is_twin], {p.id for p in kept}, names)
    return Folding(kept=kept, twin_of=twin_of, sides=sides, counts=counts)


def _classes(parts: Sequence[Part], found: Iterable[LookAlike]) -> tuple[_Class, ...]:
    """Return parts that are one shape together, two of them or more."""
    hand: dict[str, tuple[str, bool]] = {}
    for pair in sorted(
        (f for f in found if f.is_twin), key=lambda f: (f.mirrored, f.first, f.second)
    ):
        first, over = hand.setdefault(pair.first, (pair.first, False))
        hand.setdefault(pair.second, (first, over != pair.mirrored))
    members: dict[str, tuple[list[str], list[str]]] = {}
    for part in parts:
        if part.id in hand:
            first, over = hand[part.id]
            root, root_over = hand.get(first, (first, False))
            members.setdefault(root, ([], []))[over != root_over].append(part.id)
    return tuple(
        _Class(alike=tuple(alike), over=tuple(over))
        for alike, over in members.values()
        if len(alike) + len(over) > 1
    )


def _pairs_words(pairs: Sequence[tuple[str, str]], names: dict[str, str]) -> str:
    return listed([f"{names[a]} and {names[b]}" for a, b in pairs], most=4)


def _ask_handed(
    asking: Asking, classes: Sequence[_Class], place: dict[str, int], names: dict[str, str]
) -> list[tuple[str, str]]:
    pairs = [pair for each in classes for pair in each.pairs(place)]
    question = Question(
        id="twins:hands",
        kind=QuestionKind.TWINS,
        text=f"{counted(len(pairs), 'pair')} of parts {'is' if len(pairs) == 1 else 'are'} mirror twins: {_pairs_words(pairs, names)}. "
        "Are they the left and the right of one?",
        choices=choices(
            (SIDES, "Left and right of one", "One is written, its mirror is derived."),
            (OWN, "Parts of their own", "Each keeps its drawing."),
        ),
        suggested=SIDES,
        sure=True,
        shapes=tuple(part for pair in pairs for part in pair),
        settles=len(pairs),
    )
    return _taken_pairs(asking, question, pairs, names)


def _taken_pairs(
    asking: Asking, question: Question, pairs: Sequence[tuple[str, str]], names: dict[str, str]
) -> list[tuple[str, str]]:
    """Ask of pairs, together or one by one; return those that are left and right of one."""
    singles = [
        Single(
            key=f"{one}+{other}",
            text=f"Are {names[one]} and {names[other]} the left and the right of one?",
            shapes=(one, other),
        )
        for one, other in pairs
    ]
    taken = asked_of_all(asking, question, singles)
    return [pair for pair in pairs if taken[f"{pair[0]}+{pair[1]}"] == SIDES]


def _ask_inexact(
    asking: Asking, found: Iterable[LookAlike], exact: set[str], names: dict[str, str]
) -> list[tuple[str, str]]:
    """Ask of mirror twins that were not drawn quite alike; the nearest pairs, each part in one."""
    pairs: list[LookAlike] = []
    taken = set(exact)
    for pair in sorted(found, key=lambda each: (each.difference_mm, each.first, each.second)):
        is_near = pair.mirrored and not pair.is_twin and pair.difference_mm <= INEXACT_MM
        alike = pair.holes[0] == pair.holes[1] and pair.slots[0] == pair.slots[1]
        if is_near and alike and taken.isdisjoint((pair.first, pair.second)):
            pairs.append(pair)
            taken |= {pair.first, pair.second}
    if not pairs:
        return []
    told = [likeness_words(pair, names[pair.first], names[pair.second]) for pair in pairs]
    question = Question(
        id="twins:inexact",
        kind=QuestionKind.TWINS,
        text=f"{counted(len(pairs), 'pair')} of parts {'is' if len(pairs) == 1 else 'are'} nearly mirror twins: {'; '.join(told[:4])}. "
        "Are they the left and the right of one, not drawn quite alike?",
        choices=choices(
            (SIDES, "Left and right of one", "One is written, the other made as its mirror."),
            (OWN, "Parts of their own", "Each keeps its drawing, for limbs that differ."),
        ),
        suggested=SIDES,
        shapes=tuple(part for pair in pairs for part in (pair.first, pair.second)),
        settles=len(pairs),
    )
    return _taken_pairs(asking, question, [(pair.first, pair.second) for pair in pairs], names)


def _ask_same(
    asking: Asking,
    classes: Sequence[_Class],
    place: dict[str, int],
    *,
    names: dict[str, str],
    suggest_sides: bool,
) -> dict[str, str]:
    pairs = [pair for each in classes for pair in each.pairs(place)]
    ways = choices(
        (SIDES, "One for the left and one for the right", "The first is written."),
        (OWN, "Parts of their own", "Each keeps its drawing, on the same side."),
    )
    question = Question(
        id="twins:same",
        kind=QuestionKind.TWINS,
        text=f"{counted(len(pairs), 'pair')} of parts {'is' if len(pairs) == 1 else 'are'} the same shape, and turned over, too: "
        f"{_pairs_words(pairs, names)}. Is one for the left and one for the right?",
        choices=ways if suggest_sides else ways[::-1],
        suggested=SIDES if suggest_sides else OWN,
        shapes=tuple(part for pair in pairs for part in pair),
        settles=len(pairs),
    )
    return {b: a for a, b in _taken_pairs(asking, question, pairs, names)}


def _ask_counts(
    asking: Asking, classes: Sequence[_Class], names: dict[str, str]
) -> dict[str, str]:
    """Ask which alike parts without holes are several of one; return it by their first."""
    told = {
        each.members[0]: f"{len(each.members)} of {names[each.members[0]]}" for each in classes
    }
    question = Question(
        id="twins:loose",
        kind=QuestionKind.TWINS,
        text=f"Without holes, and alike, are {listed(list(told.values()))}. Are they several of one part?",
        choices=choices(
            (COUNT, "Several of one part", "It is written once, with how many are cut."),
            (OWN, "Parts of their own"),
        ),
        suggested=COUNT,
        shapes=tuple(part for each in classes for part in each.members),
        settles=len(classes),
    )
    singles = [
        Single(
            key=each.members[0],
            text=f"{told[each.members[0]]}: are they several of one part?",
            shapes=each.members,
        )
        for each in classes
    ]
    return asked_of_all(asking, question, singles)


def _tell_near(
    asking: Asking, near: Sequence[LookAlike], kept: set[str], names: dict[str, str]
) -> None:
    """Tell parts that are mixed up easily; they stay as they are drawn."""
    pairs = [pair for pair in near if pair.first in kept and pair.second in kept]
    if not pairs:
        return
    told = [likeness_words(pair, names[pair.first], names[pair.second]) for pair in pairs]
    asking.put(
        Question(
            id="twins:near",
            kind=QuestionKind.NEAR_TWINS,
            text=f"{counted(len(pairs), 'pair')} of parts {'looks' if len(pairs) == 1 else 'look'} alike and {'is' if len(pairs) == 1 else 'are'} not: {'; '.join(told[:4])}. "
            "They stay parts of their own; number them on the flesh side as soon as they are cut.",
            choices=choices((OWN, "They are two sizes")),
            suggested=OWN,
            sure=True,
            shapes=tuple(part for pair in pairs for part in (pair.first, pair.second)),
            settles=len(pairs),
        )
    )
