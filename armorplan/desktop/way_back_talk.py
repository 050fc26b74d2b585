"""What went wrong, asked one question at a time, each with its likeliest answer in hand already."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import Enum, auto

from PySide6.QtCore import QCoreApplication

from armorplan.orders.recovery.mistakes import Mistake, MistakeKind

NOT_KNOWN = "0"
MM = ("1", "2", "3", "4", "5", "6", "8", "10", NOT_KNOWN)
"""Offered distances in mm; on cut leather a maker tells them no finer. 0 stands for not known."""
USUAL_MM = "2"
DARKER, LIGHTER, NO_MATTER = "darker", "lighter", "neither"


def _say(text: str) -> str:
    return QCoreApplication.translate("way_back", text)


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """An answer that is offered.

    Attributes:
        more: what tells it from its like, in a few words; empty where nothing has to.
        about: ids that a mistake is about when this is taken.
    """

    key: str
    text: str
    more: str = ""
    about: tuple[str, ...] = ()


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
    HOW_FAR = auto()
    SHADE = auto()


_LAST = {
    MistakeKind.WRONG_HOLE: _Asks.HOW_FAR,
    MistakeKind.ROW_OFF: _Asks.HOW_FAR,
    MistakeKind.WRONG_COLOUR: _Asks.SHADE,
}
"""What is asked after the place; of other kinds the place is the last question."""

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


class WayBackTalk:
    """Asks until a mistake is told: kind, place, then how far or which shade where that matters."""

    def __init__(self, places: Mapping[MistakeKind, tuple[Choice, ...]]) -> None:
        """Take the places that can be named for each kind, the likeliest kind first.

        A kind without any place is not offered.
        """
        self._places = places
        self._asks = _Asks.KIND
        self._told: Mistake | None = None
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
            _Asks.HOW_FAR: self._how_far,
            _Asks.SHADE: self._shades,
        }[self._asks]()
        return replace(asked, at=self._at.get(self._asks, asked.at))

    def take(self, key: str) -> Mistake | None:
        """Take an answer; return the mistake once all of it is told. KeyError: it is not offered."""
        offered = self.screen().choices
        chosen = {choice.key: choice for choice in offered}[key]
        self._at[self._asks] = offered.index(chosen)
        if self._told is None or self._asks is _Asks.KIND:
            self._told = Mistake(kind=_kind(key), about=())
            self._asks = _Asks.WHERE
            return None
        if self._asks is _Asks.WHERE:
            self._told = replace(self._told, about=chosen.about)
            self._asks = _LAST.get(self._told.kind, _Asks.WHERE)
            return self._told if self._asks is _Asks.WHERE else None
        return _completed(self._told, self._asks, key)

    def back(self) -> bool:
        """Go back to the question before; tell whether there was one."""
        if self._asks is _Asks.KIND:
            return False
        self._at.pop(self._asks, None)
        self._asks = _Asks.KIND if self._asks is _Asks.WHERE else _Asks.WHERE
        return True

    def _kinds(self) -> Screen:
        offered = tuple(
            Choice(key=kind.slug, text=_say(_KINDS[kind]))
            for kind, places in self._places.items()
            if places
        )
        return Screen(heading=_say("What went wrong?"), choices=offered)

    def _where(self) -> Screen:
        kind = self._told.kind if self._told else MistakeKind.CLOSED
        return Screen(heading=_say(_WHERE[kind]), choices=self._places[kind])

    def _how_far(self) -> Screen:
        return Screen(
            heading=_say("How far is it from its place?"),
            hint=_say("Measured on the leather, from the middle of the hole."),
            choices=mm_choices(),
            at=MM.index(USUAL_MM),
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


def _completed(told: Mistake, asked: _Asks, key: str) -> Mistake:
    if asked is _Asks.HOW_FAR:
        return replace(told, mm=float(key))
    return replace(told, darker={DARKER: True, LIGHTER: False}.get(key))
