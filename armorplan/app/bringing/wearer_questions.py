"""For whom it was drawn: which limb each piece is for, and the measures it follows from then on."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from armorplan.app.bringing.asking import EACH, NONE, NOT_ALL, USUAL, Asking, capital, choices
from armorplan.app.bringing.limbs import Limb, likely_limbs, ways_of
from armorplan.app.bringing.model import Choice, Question, QuestionKind
from armorplan.app.bringing.piece_questions import Bending, PieceTaken
from armorplan.app.bringing.strap_questions import Closing
from armorplan.app.wearer_following import suggested_mm
from armorplan.pattern.parts import Part
from armorplan.workshop.measures import BodyMeasure, MeasureKind

_NOBODY = Choice(key=NONE, words="Nobody yet", why="It keeps its size until you say.")
_MANY = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Followed:
    """Parts that follow measures, by ids of the catalogue; empty: that way they stay."""

    limb: str
    parts: tuple[str, ...]
    along: str
    around: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WornBy:
    """What it was drawn for: each measure with its mm and whether a person said it; who follows."""

    measures: tuple[tuple[str, float, bool], ...] = ()
    followed: tuple[Followed, ...] = ()


Likely = tuple[PieceTaken, tuple[Limb, ...]]
"""A piece, and the limbs it may be for, the likeliest first."""


def limbs_of(
    pieces: Sequence[PieceTaken],
    parts: Mapping[str, Part],
    *,
    names: Mapping[str, str],
    closings: Sequence[Closing],
    bendings: Sequence[Bending],
) -> tuple[Likely, ...]:
    """Return which limbs each piece may be for."""
    turning = {part for bending in bendings for part in bending.parts}
    return tuple(
        (
            piece,
            likely_limbs(
                [parts[key] for key in piece.parts],
                names,
                title=piece.name,
                closings=closings,
                bends=not turning.isdisjoint(piece.parts),
            ),
        )
        for piece in pieces
    )


def asked_wearer(
    asking: Asking,
    likely: Sequence[Likely],
    parts: Mapping[str, Part],
    measures: Sequence[BodyMeasure],
) -> WornBy:
    """Ask for which limb each piece was drawn, and for which measures; nobody may be said, too."""
    known = {measure.id: measure for measure in measures}
    measured = [
        (piece, tuple(limb for limb in limbs if limb.around in known)) for piece, limbs in likely
    ]
    followed = [
        each
        for piece, limb in _ask_limbs(asking, [each for each in measured if each[1]])
        for each in _followed(piece, limb, parts, known)
    ]
    used = dict.fromkeys(m for each in followed for m in (each.along, each.around) if m)
    return WornBy(
        measures=_ask_measures(asking, [known[key] for key in used]), followed=tuple(followed)
    )


# --- limbs ----------------------------------------------------------------------------------------


def _ask_limbs(asking: Asking, likely: Sequence[Likely]) -> list[tuple[PieceTaken, Limb]]:
    if not likely:
        return []
    if len(likely) >= _MANY:
        taken = asking.put(_all_limbs(likely))
        if taken != EACH:
            return [(piece, limbs[0]) for piece, limbs in likely if taken == USUAL]
    found: list[tuple[PieceTaken, Limb]] = []
    for number, (piece, limbs) in enumerate(likely, start=1):
        key = asking.put(_limb_question(piece, limbs, "" if len(likely) == 1 else f":{number}"))
        found += [(piece, limb) for limb in limbs if limb.id == key]
    return found


def _all_limbs(likely: Sequence[Likely]) -> Question:
    told = "; ".join(f"{piece.name}: {limbs[0].name}" for piece, limbs in likely)
    return Question(
        id="limbs",
        kind=QuestionKind.WEARER,
        text=f"Which part of a wearer is each piece for? By size and names: {told}. Fitting it to a wearer "
        "begins from that.",
        choices=(*choices((USUAL, "So it is"), (EACH, NOT_ALL)), _NOBODY),
        suggested=USUAL,
        shapes=tuple(key for piece, _ in likely for key in piece.parts),
        settles=len(likely),
    )


def _limb_question(piece: PieceTaken, limbs: Sequence[Limb], ending: str) -> Question:
    return Question(
        id=f"limb{ending}",
        kind=QuestionKind.WEARER,
        text=f"Which part of a wearer is {piece.name} for? Fitting it to a wearer begins from that.",
        choices=(*choices(*((limb.id, capital(limb.name)) for limb in limbs)), _NOBODY),
        suggested=limbs[0].id,
        shapes=piece.parts,
        settles=len(piece.parts),
    )


def _followed(
    piece: PieceTaken, limb: Limb, parts: Mapping[str, Part], known: Mapping[str, BodyMeasure]
) -> list[Followed]:
    along = next((key for key in limb.along if key in known), "")
    found: dict[tuple[str, str], list[str]] = {}
    for key in piece.parts:
        high, wide = ways_of(parts[key])
        way = (along if high else "", limb.around if wide else "")
        if any(way):
            found.setdefault(way, []).append(key)
    return [
        Followed(limb=limb.id, parts=tuple(its), along=way[0], around=way[1])
        for way, its in found.items()
    ]


# --- measures -------------------------------------------------------------------------------------


def _middle_mm(measure: BodyMeasure) -> float:
    """Return what a pattern may have been drawn for where nobody says: the middle of adults."""
    known = suggested_mm(measure)
    if known is not None:
        return known
    over = measure.over_bare_mm or (0.0, 0.0)
    between = measure.between_mm or (300.0, 300.0)
    return round((sum(between) + sum(over)) / 2)


def _ask_measures(
    asking: Asking, measures: Sequence[BodyMeasure]
) -> tuple[tuple[str, float, bool], ...]:
    if not measures:
        return ()
    usual = {measure.id: _middle_mm(measure) for measure in measures}
    told = ", ".join(f"{each.name.lower()} {usual[each.id]:g} mm" for each in measures)
    taken = asking.put(
        Question(
            id="drawn_for",
            kind=QuestionKind.WEARER,
            text=f"For which measures was it drawn? The middle of adults, girths over the padding, is: {told}. "
            "All later sizes are reckoned from what it was drawn for.",
            choices=choices(
                (USUAL, "About the middle of adults", "It is noted as a guess."),
                (EACH, "Type the measures"),
            ),
            suggested=USUAL,
            settles=len(measures),
        )
    )
    if taken != EACH:
        return tuple((each.id, usual[each.id], False) for each in measures)
    return tuple((each.id, _ask_measure(asking, each, usual[each.id]), True) for each in measures)


def _ask_measure(asking: Asking, measure: BodyMeasure, usual_mm: float) -> float:
    padded = " over the padding" if measure.kind is MeasureKind.GIRTH else ""
    return asking.number(
        Question(
            id=f"drawn_for:{measure.id}",
            kind=QuestionKind.WEARER,
            text=f"{measure.name}{padded} of whom it was drawn for, in mm? {measure.taken}",
            choices=choices((f"{usual_mm:g}", f"{usual_mm:g} mm", "The middle of adults.")),
            suggested=f"{usual_mm:g}",
            typed=f"{measure.name.lower()}{padded}, in mm",
            numeric=True,
        )
    )
