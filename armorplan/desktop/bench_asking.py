"""A question over the bench view, answered by the verbs: what a fit showed, where, how far off."""

from collections.abc import Callable, Mapping
from typing import Protocol

from armorplan.app.fit_findings import FitFinding
from armorplan.desktop.bench_leaf import Leaf, gone_through
from armorplan.desktop.bench_verbs import Verb
from armorplan.desktop.bench_walk import WalkPage
from armorplan.desktop.bench_words import ELSEWHERE, HERE, unbroken
from armorplan.desktop.way_back_talk import Screen

MOST = 5
"""So many answers are in sight at once, the one in hand among them."""


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
    """One question at a time, the answer in hand marked."""

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
        """Before, take, next, leave, back."""
        return gone_through()

    def act(self, verb: Verb) -> None:
        """Go through the answers, take one, go back a question, or leave."""
        choices = self._talk.screen().choices
        if verb in (Verb.BEGIN, Verb.OTHER):
            self._at = (self._at + (1 if verb is Verb.OTHER else -1)) % len(choices)
        elif verb is Verb.DONE:
            found = self._talk.take(choices[self._at].key)
            if found is not None:
                self._close()
                self._told(found)
                return
            self._at = self._talk.screen().at
        elif verb is Verb.AMISS or not self._talk.back():
            self._close()
            return
        else:
            self._at = self._talk.screen().at
        self._turned()

    def page(self) -> WalkPage | None:
        """Return the question with the answers around the one in hand."""
        screen = self._talk.screen()
        first = max(0, min(self._at - MOST // 2, len(screen.choices) - MOST))
        lines = [
            unbroken((HERE if at == self._at else ELSEWHERE) + choice.text)
            for at, choice in enumerate(screen.choices)
        ]
        return WalkPage(
            title=screen.heading, lines=tuple(lines[first : first + MOST]), about=self._about
        )
