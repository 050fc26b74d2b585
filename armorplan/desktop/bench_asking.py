"""A question over the bench view, answered by the verbs: what a fit showed, where, how far off."""

from collections.abc import Callable, Mapping
from typing import Protocol

from armorplan.app.fit_findings import FitFinding
from armorplan.desktop.bench_leaf import PANEL_KEYS, Leaf, gone_through, panel_verb
from armorplan.desktop.bench_verbs import Verb
from armorplan.desktop.bench_walk import WalkPage
from armorplan.desktop.bench_words import ELSEWHERE, HERE, more_text, unbroken
from armorplan.desktop.way_back_talk import Screen

MOST = 6
"""So many lines are in sight at once: answers, the one in hand among them, and how many more there are."""
DIGITS = "123456789"
"""Each chooses the answer that it stands before, as in every panel."""

_ALSO = {"Enter": Verb.DONE, "Space": Verb.DONE, "Down": Verb.OTHER, "Up": Verb.BEGIN}


class Talk(Protocol):
    """Asks until something is told."""

    def screen(self) -> Screen:
        """What is asked now."""
        ...

    def take(self, key: str) -> FitFinding | None:
        """Take an answer; return what is told, once all of it is."""
        ...

    def back(self) -> bool:
        """Go back to the question before; tell whether there was one."""
        ...


class AskingLeaf(Leaf):
    """One question at a time, the answer in hand marked; digits choose, as they do in panels."""

    def __init__(
        self,
        talk: Talk,
        about: tuple[str, ...],
        *,
        told: Callable[[FitFinding], None],
        close: Callable[[], None],
        turned: Callable[[], None],
    ) -> None:
        """Take what is asked, what is lit meanwhile, and what hears of the answer."""
        self._talk, self._about = talk, about
        self._told, self._close, self._turned = told, close, turned
        self._at = talk.screen().at

    def words(self) -> Mapping[Verb, str]:
        """Up, take, down, leave, go back."""
        return gone_through()

    def act(self, verb: Verb) -> None:
        """Go through the answers, take one, go back a question, or leave."""
        choices = self._talk.screen().choices
        if verb in (Verb.BEGIN, Verb.OTHER):
            self._at = (self._at + (1 if verb is Verb.OTHER else -1)) % len(choices)
        elif verb is Verb.DONE:
            self._take(choices[self._at].key)
            return
        elif verb is Verb.AMISS or not self._talk.back():
            self._close()
            return
        else:
            self._at = self._talk.screen().at
        self._turned()

    def verb_of(self, key: str) -> Verb | None:
        """Return the verb of a key that is no digit: digits are answers."""
        return panel_verb(key) or _ALSO.get(key)

    def key_of(self, verb: Verb) -> str:
        """Return the key of a verb beside the digits."""
        return PANEL_KEYS[verb]

    def press(self, key: str) -> bool:
        """Take the answer of a digit."""
        choices = self._talk.screen().choices
        at = DIGITS.find(key) if key else -1
        if not 0 <= at < len(choices):
            return False
        self._take(choices[at].key)
        return True

    def _take(self, key: str) -> None:
        """Take an answer: the next question, or all of it is told."""
        found = self._talk.take(key)
        if found is not None:
            self._close()
            self._told(found)
            return
        self._at = self._talk.screen().at
        self._turned()

    def page(self) -> WalkPage | None:
        """Return the question with the answers around the one in hand."""
        screen = self._talk.screen()
        lines = tuple(
            unbroken(f"{HERE if at == self._at else ELSEWHERE}{_digit(at)}{choice.text}")
            for at, choice in enumerate(screen.choices)
        )
        return WalkPage(title=screen.heading, lines=around(lines, self._at), about=self._about)


def around(lines: tuple[str, ...], at: int) -> tuple[str, ...]:
    """Return the lines around one of them, and above and below how many more there are."""
    if len(lines) <= MOST:
        return lines
    room = MOST - 2
    first = max(0, min(at - room // 2, len(lines) - room))
    above, below = first, len(lines) - first - room
    return (
        *((more_text(above, below=False),) if above else ()),
        *lines[first : first + room],
        *((more_text(below, below=True),) if below else ()),
    )


def _digit(at: int) -> str:
    return f"{DIGITS[at]}\N{EN SPACE}" if at < len(DIGITS) else "\N{EN SPACE}\N{EN SPACE}"
