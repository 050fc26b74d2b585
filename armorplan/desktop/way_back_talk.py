"""What went wrong, asked one question at a time, each with its likeliest answer in hand already."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import Enum, auto

from PySide6.QtCore import QCoreApplication

from armorplan.orders.recovery.amiss import UNKNOWN_MM
from armorplan.orders.recovery.mistakes import (
    ALONG,
    EDGE,
    FACE,
    INWARD,
    SHAPE,
    Mistake,
    MistakeKind,
)

NOT_KNOWN = "0"
MM = ("1", "2", "3", "4", "5", "6", "7", "8", "9", "10", NOT_KNOWN)
"""Offered distances in mm, each the key of its own digit; on cut leather a maker tells them no finer.
0 stands for not known."""
USUAL_MM = "2"
TAKEN_MM = f"{UNKNOWN_MM:g}"
"""In hand for a hole or row: as it is taken where nobody says."""
DARKER, LIGHTER, NO_MATTER = "darker", "lighter", "neither"


def _say(text: str) -> str:
    return QCoreApplication.translate("way_back", text)


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """An answer that is offered.

    Attributes:
        more: what tells it from its like, in a few words; empty where nothing has to.
        about: ids that a mistake is about when this is taken.
        each: where it stands for some, those, one by one; not all of them need to be meant.
        number: the digit that takes it, where it keeps one of its own; 0: by its place in the list.
    """

    key: str
    text: str
    more: str = ""
    about: tuple[str, ...] = ()
    each: tuple["Choice", ...] = ()
    number: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """A question with its answers; ``at`` is the number of the likeliest one."""

    heading: str
    choices: tuple[Choice, ...]
    hint: str = ""
    at: int = 0


class _Asks(Enum):
    KIND = auto()
    WHERE = auto()
    ALL_BUT = auto()
    HOW_FAR = auto()
    WHICH_WAY = auto()
    SHADE = auto()


_OUT = (_Asks.KIND, _Asks.WHERE, _Asks.HOW_FAR, _Asks.WHICH_WAY)
_ASKED = {
    MistakeKind.CLOSED: (_Asks.KIND, _Asks.WHERE, _Asks.ALL_BUT),
    MistakeKind.WRONG_HOLE: _OUT,
    MistakeKind.ROW_OFF: _OUT,
    MistakeKind.WRONG_COLOUR: (_Asks.KIND, _Asks.WHERE, _Asks.SHADE),
    MistakeKind.SPOILT: (_Asks.KIND, _Asks.WHERE, _Asks.WHICH_WAY, _Asks.HOW_FAR),
}
"""What is asked of a kind, one after the other; of the others the place is the last question."""
ALL = "all"
_SHORT = (_Asks.KIND, _Asks.WHERE)

_KINDS = {
    MistakeKind.CLOSED: "It is closed already, though it is not ticked",
    MistakeKind.WRONG_HOLE: "A hole is in the wrong place",
    MistakeKind.TWO_ALIKE: "Two of one hand were made",
    MistakeKind.WRONG_COLOUR: "A part has the wrong colour",
    MistakeKind.ROW_OFF: "A row is out of line on cut leather",
    MistakeKind.SPOILT: "A part is spoilt",
}

_WHERE = {
    MistakeKind.CLOSED: "What is set already?",
    MistakeKind.WRONG_HOLE: "Which hole?",
    MistakeKind.TWO_ALIKE: "Which part was made twice?",
    MistakeKind.WRONG_COLOUR: "Which part?",
    MistakeKind.ROW_OFF: "Which row?",
    MistakeKind.SPOILT: "Which part?",
}

NUMBERS = {kind: number for number, kind in enumerate(MistakeKind, start=1)}
"""The digit of each kind, the same whatever is chosen or offered beside it: fingers learn it."""
_WAYS = {
    EDGE: "Towards the edge",
    INWARD: "Away from the edge, into the leather",
    ALONG: "Along the edge",
}
_SPOTS = {
    EDGE: "At its edge: a nick or a cut",
    FACE: "On its face: a spot, a scratch, a stain",
    SHAPE: "Its shape: it dried slack or crooked",
}


class WayBackTalk:
    """Asks until a mistake is told: kind, place, then how far, which way or which shade."""

    def __init__(self, places: Mapping[MistakeKind, tuple[Choice, ...]]) -> None:
        """Take the places that can be named for each kind, the likeliest kind first.

        A kind without any place is not offered.
        """
        self._places = places
        self._asks = _Asks.KIND
        self._told: Mistake | None = None
        self._each: tuple[Choice, ...] = ()
        self._at: dict[_Asks, int] = {}

    @property
    def is_first(self) -> bool:
        """Whether it still asks what went wrong."""
        return self._asks is _Asks.KIND

    def screen(self) -> Screen:
        """Return what is asked now."""
        asked = {
            _Asks.KIND: self._kinds,
            _Asks.WHERE: self._where,
            _Asks.ALL_BUT: self._all_but,
            _Asks.HOW_FAR: self._how_far,
            _Asks.WHICH_WAY: self._which_way,
            _Asks.SHADE: self._shades,
        }[self._asks]()
        return replace(asked, at=self._at.get(self._asks, asked.at))

    def take(self, key: str) -> Mistake | None:
        """Take an answer; return the mistake once all of it is told. KeyError: it is not offered."""
        offered = self.screen().choices
        chosen = {choice.key: choice for choice in offered}[key]
        self._at[self._asks] = offered.index(chosen)
        self._told = told = _with(self._told, self._asks, chosen)
        self._each = chosen.each if self._asks is _Asks.WHERE else self._each
        after = self._after(told)
        if after is None:
            return told
        self._asks = after
        return None

    def _after(self, told: Mistake) -> _Asks | None:
        """Return what is asked next; ``None`` where all is told."""
        asked = _ASKED.get(told.kind, _SHORT)
        at = asked.index(self._asks) + 1
        # How large a part is that dried crooked is no question.
        is_last = at == len(asked) or (told.kind is MistakeKind.SPOILT and told.way == SHAPE)
        if is_last or (asked[at] is _Asks.ALL_BUT and len(self._each) <= 1):
            return None
        return asked[at]

    def back(self) -> bool:
        """Go back to the question before; tell whether there was one."""
        if self._asks is _Asks.KIND or self._told is None:
            return False
        self._at.pop(self._asks, None)
        asked = _ASKED.get(self._told.kind, _SHORT)
        self._asks = asked[asked.index(self._asks) - 1]
        return True

    def _kinds(self) -> Screen:
        offered = tuple(
            Choice(key=kind.slug, text=_say(_KINDS[kind]), number=NUMBERS[kind])
            for kind in MistakeKind
            if self._places.get(kind)
        )
        likely = next((kind.slug for kind, places in self._places.items() if places), "")
        at = next((i for i, choice in enumerate(offered) if choice.key == likely), 0)
        return Screen(heading=_say("What went wrong?"), choices=offered, at=at)

    def _where(self) -> Screen:
        kind = self._told.kind if self._told else MistakeKind.CLOSED
        return Screen(heading=_say(_WHERE[kind]), choices=self._places[kind])

    def _which_way(self) -> Screen:
        is_spot = self._told is not None and self._told.kind is MistakeKind.SPOILT
        words, heading = (
            (_SPOTS, _say("What of it is spoilt?"))
            if is_spot
            else (_WAYS, _say("Which way is it out of its place?"))
        )
        choices = [Choice(key=way, text=_say(text)) for way, text in words.items()]
        not_known = Choice(key=NOT_KNOWN, text=_say("Not known"))
        return Screen(heading=heading, choices=(*choices, not_known), at=len(choices))

    def _all_but(self) -> Screen:
        every = tuple(one for choice in self._each for one in choice.about)
        choices = [Choice(key=ALL, text=_say("All of it"), about=every)]
        for choice in self._each:
            rest = tuple(one for one in every if one not in choice.about)
            text = _say("All but this: {0}").format(choice.text)
            choices.append(Choice(key=choice.key, text=text, about=rest))
        return Screen(heading=_say("Is all of it set?"), choices=tuple(choices))

    def _how_far(self) -> Screen:
        is_spot = self._told is not None and self._told.kind is MistakeKind.SPOILT
        return Screen(
            heading=_say("How large is the spot?")
            if is_spot
            else _say("How far is it from its place?"),
            hint=_say("Across, at its widest.")
            if is_spot
            else _say("Measured on the leather, from the middle of the hole."),
            choices=mm_choices(),
            at=MM.index(TAKEN_MM),
        )

    def _shades(self) -> Screen:
        choices = (
            Choice(key=LIGHTER, text=_say("Lighter than it is to be")),
            Choice(key=DARKER, text=_say("Darker than it is to be")),
            Choice(key=NO_MATTER, text=_say("Another colour, or not known")),
        )
        return Screen(heading=_say("Which way is the colour off?"), choices=choices)


def mm_choices() -> tuple[Choice, ...]:
    """Return distances to choose from; ``MM.index(USUAL_MM)`` is the likeliest."""
    return tuple(
        Choice(key=mm, text=_say("{0} mm").format(mm) if mm != NOT_KNOWN else _say("Not known"))
        for mm in MM
    )


def _kind(slug: str) -> MistakeKind:
    return next(kind for kind in MistakeKind if kind.slug == slug)


def _with(told: Mistake | None, asked: _Asks, chosen: Choice) -> Mistake:
    """Return what is told with one answer more."""
    key = chosen.key
    if told is None or asked is _Asks.KIND:
        return Mistake(kind=_kind(key), about=())
    if asked in (_Asks.WHERE, _Asks.ALL_BUT):
        return replace(told, about=chosen.about)
    if asked is _Asks.HOW_FAR:
        return replace(told, mm=float(key))
    if asked is _Asks.WHICH_WAY:
        return replace(told, way="" if key == NOT_KNOWN else key)
    return replace(told, darker={DARKER: True, LIGHTER: False}.get(key))
