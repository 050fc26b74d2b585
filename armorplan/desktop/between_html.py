"""The answer to which of two comes first as rich text; the steps it names lead to themselves."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from html import escape

from PySide6.QtCore import QCoreApplication

from armorplan.app.asking_between import BetweenTold
from armorplan.app.between_links import BetweenLink
from armorplan.app.between_words import (
    aside_mark,
    link_foot,
    link_words,
    numbered,
    side_words,
)
from armorplan.desktop.colours import Colours
from armorplan.relations.model import Force

GO = "go:"
"""An anchor to a step: this, and its number among ``BetweenPage.targets``."""
TRY = "try:"
"""The anchor that leads to telling of a tool that did, or did not, get there."""
FREE = ""
_SIGNS = {
    Force.CANNOT: "✖",
    Force.SPOIL: "▲",
    Force.EASIER: "●",
    Force.USUAL: "○",
    FREE: "✓",
}
_ASIDE_SIGN = "⊘"


def _say(text: str) -> str:
    return QCoreApplication.translate("between", text)


def force_sign(force: str) -> str:
    """Return the character that stands for how hard an order holds."""
    return next((sign for known, sign in _SIGNS.items() if known == force), "●")


def force_word(force: str) -> str:
    """Say in a word or two how hard an order holds."""
    words = {
        Force.CANNOT: _say("cannot be otherwise"),
        Force.SPOIL: _say("otherwise it spoils"),
        Force.EASIER: _say("otherwise only dearer"),
        Force.USUAL: _say("only usual practice"),
        FREE: _say("nothing forces it"),
    }
    return next((said for known, said in words.items() if known == force), force)


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """Where an anchor leads: a step, and the steps whose joints light up with it."""

    step: str
    lit: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BetweenPage:
    """The rich text, and where its anchors lead."""

    html: str
    targets: tuple[Target, ...]


class _Writer:
    """Writes one answer; every text is escaped, for names come out of patterns."""

    def __init__(self, told: BetweenTold, colours: Colours) -> None:
        self._told = told
        self._colours = colours
        self.targets: list[Target] = []

    def lines(self) -> Iterator[str]:
        """Yield the answer paragraph by paragraph."""
        row = self._told.row
        ends = (row.first, *row.then)
        is_dearer = row.force == Force.USUAL and row.price_min
        force = Force.EASIER if is_dearer else row.force
        yield self._chip(force_sign(force), force_word(force), force)
        yield f"<p><b>{self._linked(row.sentence, ends, ends)}</b></p>"
        if side_words(row):
            yield f"<p>{self._quiet(side_words(row))}</p>"
        for at, link in enumerate(row.chain):
            yield from self._link(link, f"{numbered(row, at)}{force_sign(link.force)} ")
        for link in row.aside:
            yield from self._link(link, f"{_ASIDE_SIGN} {aside_mark(link)}", aside=True)
        for line in row.other_order:
            yield f"<p>{self._linked(line, (row.first,), ends)}</p>"
        if self._told.setting:
            asked = _say("A tool did, or did not, get to '{0}': tell it …")
            title = self._told.titles[self._told.setting]
            yield f"<p>{self._anchor(TRY, asked.format(title))}</p>"

    def _link(self, link: BetweenLink, mark: str, *, aside: bool = False) -> Iterator[str]:
        named = tuple(filter(None, (link.first, *link.of)))
        order = self._linked(link.order, named, named)
        words = escape(link_words(link))
        colour = self._colours.quiet if aside else self._colours.text
        yield (
            f'<p style="margin-left:10px; color:{colour}"><b>{escape(mark)}</b>{order}<br>'
            f"{words}<br>{self._quiet(link_foot(link))}</p>"
        )

    def _chip(self, sign: str, word: str, force: str) -> str:
        colours = self._colours
        by_force = {
            Force.CANNOT: colours.alarm,
            Force.SPOIL: colours.drying,
            FREE: colours.ready,
        }
        colour = next((c for known, c in by_force.items() if known == force), colours.running)
        return f'<p style="color:{colour}"><b>{sign}&nbsp;{escape(word)}</b></p>'

    def _quiet(self, text: str) -> str:
        return f'<span style="color:{self._colours.quiet}">{escape(text)}</span>'

    def _anchor(self, href: str, words: str) -> str:
        return f'<a href="{href}" style="color:{self._colours.running}">{escape(words)}</a>'

    def _linked(self, text: str, steps: Iterable[str], lit: tuple[str, ...]) -> str:
        """Return a text in which the titles of steps, as they follow each other, are anchors."""
        done, rest = "", text
        for step in sorted(set(steps), key=lambda step: self._found(text, step)):
            title = self._told.titles[step]
            head, mark, tail = rest.partition(f"'{title}'")
            if mark:
                self.targets.append(Target(step=step, lit=lit))
                anchor = self._anchor(f"{GO}{len(self.targets) - 1}", title)
                done, rest = f"{done}{escape(head)}'{anchor}'", tail
        return f"{done}{escape(rest)}"

    def _found(self, text: str, step: str) -> tuple[int, str]:
        return text.find(f"'{self._told.titles[step]}'"), step


def between_page(told: BetweenTold, colours: Colours) -> BetweenPage:
    """Return an answer as rich text in the colours of the theme."""
    writer = _Writer(told, colours)
    html = "".join(writer.lines())
    return BetweenPage(html=html, targets=tuple(writer.targets))
