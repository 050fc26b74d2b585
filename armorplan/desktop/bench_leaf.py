"""What lies over the bench view for a while and has the verbs to itself: a leaf to read, or a panel."""

from collections.abc import Callable, Mapping
from typing import Protocol

from PySide6.QtCore import QCoreApplication, SignalInstance

from armorplan.desktop.bench_verbs import OWN_KEYS, Verb, own_verb
from armorplan.desktop.bench_walk import Walk, WalkPage


class Leaf(Protocol):
    """Something that the verbs speak to instead of the step."""

    def verb_of(self, key: str) -> Verb | None:
        """Return the verb that a key speaks here."""
        return own_verb(key)

    def key_of(self, verb: Verb) -> str:
        """Return the key that is shown for a verb."""
        return OWN_KEYS[verb][0]

    def words(self) -> Mapping[Verb, str]:
        """What each verb does now; one that is missing does nothing."""
        ...

    def act(self, verb: Verb) -> None:
        """Do what a verb says."""
        ...

    def press(self, key: str) -> bool:
        """Hear a key that speaks no verb here; tell whether it meant something."""
        return False

    def page(self) -> WalkPage | None:
        """What is to be read; ``None``: it shows itself."""
        ...


def gone_through() -> dict[Verb, str]:
    """Return the words of what is gone through line by line."""
    return {
        Verb.BEGIN: _say("Up"),
        Verb.DONE: _say("Take"),
        Verb.OTHER: _say("Down"),
        Verb.AMISS: _say("Leave"),
        Verb.TAKE_BACK: _say("Go back"),
    }


class ReadingLeaf(Leaf):
    """Pages to read, and back to the step after the last one."""

    def __init__(self, walk: Walk, close: Callable[[], None], turned: Callable[[], None]) -> None:
        self._walk, self._close, self._turned = walk, close, turned

    def words(self) -> Mapping[Verb, str]:
        """Go on, go back, close."""
        is_last = self._walk.at == len(self._walk.pages) - 1
        on = {} if is_last else {Verb.DONE: _say("Read on")}
        return {Verb.OTHER: _say("Close"), Verb.TAKE_BACK: _say("Back")} | on

    def act(self, verb: Verb) -> None:
        """Turn the page, or close."""
        goes_on = {
            Verb.DONE: self._walk.on,
            Verb.TAKE_BACK: self._walk.back,
        }.get(verb)
        if goes_on is not None and goes_on():
            self._turned()
        else:
            self._close()

    def page(self) -> WalkPage | None:
        """Return the page in hand."""
        return self._walk.page


class Panel(Protocol):
    """A panel that is worked by verbs."""

    @property
    def left(self) -> SignalInstance:
        """Says that the panel is done with."""
        ...

    def begin(self) -> None:
        """Show what is chosen now."""
        ...

    def step(self, by: int) -> None:
        """Go to the next thing, or by -1 to the former one."""
        ...

    def take(self) -> None:
        """Take what is in hand."""
        ...

    def back(self) -> None:
        """Go one back; from the beginning, leave."""
        ...


PANEL_KEYS: Mapping[Verb, str] = {
    Verb.BEGIN: "Up",
    Verb.DONE: "Return",
    Verb.OTHER: "Down",
    Verb.AMISS: "A",
    Verb.TAKE_BACK: "Backspace",
}
"""A panel has the keyboard: digits are its answers, so the verbs have these keys there."""
_ALSO: Mapping[str, Verb] = {"Left": Verb.BEGIN, "Right": Verb.OTHER}
"""Keys that do the same and stand on no plate: fingers know them from the steps."""
_OUT = (Verb.AMISS, Verb.TAKE_BACK)
"""The verbs that lead out of a panel."""
SIGNS: Mapping[str, str] = {
    "Up": "\N{UPWARDS ARROW}",
    "Down": "\N{DOWNWARDS ARROW}",
    "Return": "\N{DOWNWARDS ARROW WITH CORNER LEFTWARDS}",
    "Backspace": "\N{ERASE TO THE LEFT}",
}
"""What stands on the keys themselves."""


def panel_verb(key: str) -> Verb | None:
    """Return the verb of a key where digits are answers."""
    return next((verb for verb, own in PANEL_KEYS.items() if own == key), _ALSO.get(key))


class PanelLeaf(Leaf):
    """A panel over the view: its things are gone through and taken by the verbs."""

    def __init__(
        self, panel: Panel, close: Callable[[], None], may_take: Callable[[], bool]
    ) -> None:
        """Take the panel, what leaves it, and what tells whether there is anything to take now."""
        self._panel, self._close, self._may_take = panel, close, may_take

    def words(self) -> Mapping[Verb, str]:
        """Up, take, down, leave, go back."""
        words = gone_through()
        return words if self._may_take() else {v: w for v, w in words.items() if v in _OUT}

    def act(self, verb: Verb) -> None:
        """Hand a verb on to the panel."""
        {
            Verb.BEGIN: lambda: self._panel.step(-1),
            Verb.DONE: self._panel.take,
            Verb.OTHER: lambda: self._panel.step(1),
            Verb.AMISS: self._close,
            Verb.TAKE_BACK: self._panel.back,
        }[verb]()

    def page(self) -> WalkPage | None:
        """It shows itself."""
        return None

    def verb_of(self, key: str) -> Verb | None:
        """Return the verb of a key that the panel leaves over: digits are its answers."""
        return panel_verb(key)

    def key_of(self, verb: Verb) -> str:
        """Return the key by which the panel knows a verb."""
        return PANEL_KEYS[verb]


def _say(text: str) -> str:
    return QCoreApplication.translate("bench_leaf", text)
