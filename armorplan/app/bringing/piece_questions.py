"""Which parts are one piece, what passes through whose slots, and how the limb bends."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from armorplan.app.bringing.answering import Fact
from armorplan.app.bringing.asking import NONE, Asking, capital, choices, counted, listed
from armorplan.app.bringing.facts import said_facts
from armorplan.app.bringing.model import Question, QuestionKind
from armorplan.app.bringing.part_names import unlike
from armorplan.app.bringing.part_shapes import middle
from armorplan.app.bringing.rows_taken import Row, hole_of, linked
from armorplan.app.bringing.splitting import Single, asked_of_all
from armorplan.files.typed_numbers import typed_number
from armorplan.geometry.areas import rectangle_mm
from armorplan.pattern.parts import Part, PartKind, Slot

LINKED, ONE = "linked", "one"
_EASY_MM = 8.0
"""A slot is at most so much longer than what passes it is wide (common practice, no source)."""
_SNUG_MM = 0.5
_MOST_DEG = 180.0
_EACH_DEG = 30
"""How far a pair of lames turns where nobody says (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """A strap or keeper that passes slots of another part: their ids."""

    part: str
    through: tuple[str, ...]
    of: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceTaken:
    """A piece: its name, whether it is made left and right, its parts."""

    name: str
    mirrored: bool
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bending:
    """Parts along a limb, from its upper to its lower end, and how far it bends, all together."""

    parts: tuple[str, ...]
    angle_deg: float


def asked_threads(
    asking: Asking, parts: Mapping[str, Part], names: dict[str, str]
) -> tuple[Passed, ...]:
    """Ask what passes through the slots; keepers are asked about before straps."""
    slots = {slot.id: slot for part in parts.values() for slot in part.slots}
    passing = [
        p for kind in (PartKind.KEEPER, PartKind.STRAP) for p in parts.values() if p.kind is kind
    ]
    found: list[Passed] = []
    for part in passing:
        ways = list(_ways_through(part, parts, slots))
        if not ways:
            continue
        told = [
            (way.of, f"Through {counted(len(way.through), 'slot')} of {names[way.of]}")
            for way in ways
        ]
        taken = asking.put(
            Question(
                id=f"thread:{part.id}",
                kind=QuestionKind.THREADS,
                text=f"{capital(names[part.id])} is {rectangle_mm(part.outline)[1]:.0f} mm wide. Does it pass "
                "through slots?",
                choices=choices(*told, (NONE, "It passes through none")),
                suggested=told[0][0],
                shapes=(part.id, *ways[0].through),
            )
        )
        way = next((way for way in ways if way.of == taken), None)
        if way is not None:
            found.append(way)
            slots = {key: slot for key, slot in slots.items() if key not in way.through}
    return tuple(found)


def _ways_through(
    part: Part, parts: Mapping[str, Part], slots: Mapping[str, Slot]
) -> Iterable[Passed]:
    """Return the parts with slots that it fits, those that it fits most closely first."""
    wide_mm = rectangle_mm(part.outline)[1]
    fitting: dict[str, list[Slot]] = {}
    for slot in slots.values():
        easy_mm = slot.length_mm - wide_mm
        if slot.part != part.id and slot.part in parts and -_SNUG_MM <= easy_mm <= _EASY_MM:
            fitting.setdefault(slot.part, []).append(slot)
    for of, its in sorted(fitting.items(), key=lambda each: min(s.length_mm for s in each[1])):
        ordered = sorted(its, key=lambda slot: (middle(slot.outline)[1], middle(slot.outline)[0]))
        yield Passed(part=part.id, of=of, through=tuple(slot.id for slot in ordered[:2]))


# --- pieces ---------------------------------------------------------------------------------------


def asked_pieces(
    asking: Asking,
    parts: Mapping[str, Part],
    *,
    links: Iterable[tuple[str, str]],
    sides: frozenset[str],
    names: Mapping[str, str],
    title: str,
) -> tuple[PieceTaken, ...]:
    """Ask which parts are one piece, and whether it is made left and right.

    Args:
        asking: what is asked.
        parts: the parts by key.
        links: pairs of parts that hold each other.
        sides: parts of which both sides are drawn.
        names: what the parts are called.
        title: what the pattern is called.
    """
    hanging = groups = linked(links, parts)
    together = [group for group in groups if len(group) > 1]
    taken = asking.put(_pieces_question(together, parts)) if len(together) > 1 else ONE
    if taken == ONE:
        groups = (tuple(parts),)
    else:
        loose = tuple(group[0] for group in groups if len(group) == 1)
        groups = ((*together[0], *loose), *together[1:])
    both = sides
    if not sides:
        both = _ask_both(asking, hanging, names)
    said = said_facts(asking.bringing, Fact.PIECE)
    named: dict[tuple[str, bool], list[str]] = {}
    for number, group in enumerate(groups):
        usual = title if number == 0 else f"{title} {number + 1}"
        for part in group:
            named.setdefault((said.get(part, usual), part in both), []).append(part)
    found: list[PieceTaken] = []
    for (name, mirrored), its in named.items():
        # What is made once and what is made twice are two pieces, whatever both are called.
        own = unlike(name, (piece.name for piece in found))
        found.append(PieceTaken(name=own, mirrored=mirrored, parts=tuple(its)))
    return tuple(found)


def _pieces_question(groups: Sequence[tuple[str, ...]], parts: Mapping[str, Part]) -> Question:
    sizes = ", ".join(str(len(group)) for group in groups)
    return Question(
        id="pieces",
        kind=QuestionKind.PIECES,
        text=f"The parts hang together in {len(groups)} groups, of {sizes} parts. Is each a piece?",
        choices=choices(
            (LINKED, "A piece for each group", "Loose parts go with the first."),
            (ONE, "All are one piece", "They are tried on and dyed as one."),
        ),
        suggested=LINKED,
        shapes=tuple(parts),
        settles=len(groups),
    )


def _ask_both(
    asking: Asking, groups: Sequence[tuple[str, ...]], names: Mapping[str, str]
) -> frozenset[str]:
    """Ask whether what is drawn once is made for both sides; return the parts that are."""
    count = sum(len(group) for group in groups)
    question = Question(
        id="both",
        kind=QuestionKind.PIECES,
        text=f"{'Is the part' if count == 1 else f'Are the {count:,} parts'} made once, or for the left and "
        "the right?",
        choices=choices(
            ("once", "Once"),
            ("both", "Left and right", "The drawing is the left; the right is its mirror."),
        ),
        suggested="once",
        settles=count,
    )
    singles = [
        Single(
            key=group[0],
            text=f"{capital(listed([names[key] for key in group]))}: made once, or for the left and the "
            "right?",
            shapes=group,
        )
        for group in groups
    ]
    taken = asked_of_all(asking, question, singles)
    return frozenset(key for group in groups for key in group if taken[group[0]] == "both")


# --- how the limb bends -----------------------------------------------------------------------------


def asked_movements(
    asking: Asking,
    rows: Sequence[Row],
    parts: Mapping[str, Part],
    *,
    both: frozenset[str],
    names: dict[str, str],
) -> tuple[Bending, ...]:
    """Ask how far each chain of parts that turn on each other bends, all made once or all twice."""
    pairs = [(row.match.first, row.match.second) for row in rows if row.turns]
    turning = [(one, other) for one, other in pairs if (one in both) == (other in both)]
    found: list[Bending] = []
    for group in linked(turning, parts):
        chain = _chain(group, turning, rows, parts) if len(group) > 1 else ()
        if not chain:
            continue
        usual = _EACH_DEG * (len(chain) - 1)
        question = Question(
            id=f"movement:{chain[0]}",
            kind=QuestionKind.MOVEMENT,
            text=f"{capital(listed([names[part] for part in chain]))} turn on each other. How far does the limb "
            "bend there, all together, in degrees?",
            choices=choices(
                (f"{usual}", f"{usual}°", f"{_EACH_DEG}° for each pair"),
                (NONE, "It is no bend of the limb"),
                *((f"{deg}", f"{deg}°") for deg in (60, 90, 140) if deg != usual),
            ),
            suggested=f"{usual}",
            shapes=chain,
            typed="angle in °",
            numeric=True,
        )
        taken = asking.put(question)
        if taken != NONE:
            angle_deg = typed_number(taken) or float(usual)
            found.append(Bending(parts=chain, angle_deg=min(angle_deg, _MOST_DEG)))
    return tuple(found)


def _chain(
    group: Sequence[str],
    turning: Sequence[tuple[str, str]],
    rows: Sequence[Row],
    parts: Mapping[str, Part],
) -> tuple[str, ...]:
    """Return a group as a chain from the upper to the lower end; none if it branches.

    The pivots tell which end is the upper one: they lie low in the upper of two parts and high in the
    lower one. Where they tell nothing, it is the end that is drawn higher.
    """
    beside: dict[str, set[str]] = {part: set() for part in group}
    for one, other in turning:
        if one in beside and one != other:
            beside[one].add(other)
            beside[other].add(one)
    ends = [part for part in group if len(beside[part]) == 1]
    if len(ends) != 2 or any(len(its) > 2 for its in beside.values()):  # noqa: PLR2004
        return ()
    first = min(ends, key=lambda part: (middle(parts[part].outline)[1], group.index(part)))
    chain = [first]
    while len(chain) < len(group):
        chain.append(next(part for part in sorted(beside[chain[-1]]) if part not in chain))
    down = sum(_runs_down(pair, rows, parts) for pair in pairwise(chain))
    return tuple(chain if down >= 0 else chain[::-1])


def _runs_down(pair: tuple[str, str], rows: Sequence[Row], parts: Mapping[str, Part]) -> int:
    """Return 1 where the first of two parts is the upper one by their pivots, -1 where the lower."""
    low_mm = [0.0, 0.0]
    for row in rows:
        if row.turns and {row.outer, row.inner} == set(pair):
            for at, key in enumerate(pair):
                side = 0 if key == row.outer else 1
                ys = [hole_of(parts, key, holes[side]).centre[1] for holes in row.pairs]
                low_mm[at] += sum(ys) / len(ys) - middle(parts[key].outline)[1]
    return (low_mm[0] > low_mm[1]) - (low_mm[0] < low_mm[1])
