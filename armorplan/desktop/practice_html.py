"""What an answer is worth as rich text: the sentence, how far from right, the reasons behind it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from html import escape
from itertools import chain

from PySide6.QtCore import QCoreApplication

from armorplan.app.help_pages import RULE
from armorplan.desktop.colours import Colours
from armorplan.desktop.practice_words import (
    grade_words,
    how_far,
    kendall_words,
    right_shown_words,
)
from armorplan.desktop.why_words import force_words, is_rule
from armorplan.practice.drill import LETTERS, Answer, Because, Drill, Judged, WhyAsked
from armorplan.practice.grades import Grade

RIGHT_SIGN, NOT_YET_SIGN, HINT_SIGN = "\N{CHECK MARK}", "\N{WHITE DIAMOND}", "\N{WHITE CIRCLE}"


def _say(text: str) -> str:
    return QCoreApplication.translate("practice", text)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """All that is told of an answer.

    Attributes:
        grade: how it was known; ``None``: nothing is said of that (yet, or of a later try).
        is_again: it was a later try, which counts for nothing.
        with_reasons: more is told than that it is right; not before the second question.
        why: the second question, and ``reason`` what was chosen there.
        is_nearest_shown: a right answer is shown in place of the one given.
    """

    drill: Drill
    answer: Answer
    judged: Judged
    grade: Grade | None = None
    is_again: bool = False
    with_reasons: bool = True
    why: WhyAsked | None = None
    reason: str = ""
    is_nearest_shown: bool = False


def told_html(told: Told, colours: Colours) -> str:
    """Return what is told of an answer in the colours of the theme."""
    tellers = (_head, _why, _reasons, _cautions)
    return "".join(chain.from_iterable(tell(told, colours) for tell in tellers))


def told_words(told: Told) -> str:
    """Return the beginning of it in one line, to be spoken."""
    if not told.with_reasons:
        return _say("Right. And why?")
    far = how_far(told.drill, told.answer, told.judged)
    grade = grade_words(told.grade) if told.grade else ""
    return " ".join(filter(None, (told.judged.sentence, far, grade)))


def hint_html(hint: str, colours: Colours) -> str:
    """Return the reason that is shown before the answer."""
    words = hint or _say("There is no more to say here without naming the answer.")
    title = _say("The reason")
    return f"{_chip(HINT_SIGN, title, colours.running)}<p>{escape(words)}</p>"


def _head(told: Told, colours: Colours) -> Iterator[str]:
    judged = told.judged
    if told.is_nearest_shown:
        yield f"<p><b>{escape(right_shown_words(told.drill.form))}</b></p>"
    if not told.with_reasons:
        yield _asked_why(told, colours)
        return
    if judged.right:
        yield _sentence(RIGHT_SIGN, _say("Right"), judged.sentence, colours.ready)
    else:
        yield _sentence(NOT_YET_SIGN, _say("Not yet"), judged.sentence, colours.drying)
    far = how_far(told.drill, told.answer, judged)
    if far:
        yield f"<p>{escape(far)}</p>"
    if not judged.right and judged.kendall:
        yield f"<p>{_quiet(kendall_words(judged.kendall), colours)}</p>"
    if told.grade is not None:
        yield f"<p>{escape(grade_words(told.grade))}</p>"
    if told.is_again:
        yield f"<p>{_quiet(_say('A later try; only the first one is kept.'), colours)}</p>"


def _asked_why(told: Told, colours: Colours) -> str:
    """Return the second question, and no more: what is told else may be the reason it asks for."""
    question = f"<p><b>{escape(told.why.question)}</b></p>" if told.why else ""
    return _chip(RIGHT_SIGN, _say("Right. And why?"), colours.ready) + question


def _why(told: Told, colours: Colours) -> Iterator[str]:
    """Say the second question again: each reason, which was chosen, and what there is to say of it."""
    why = told.why
    if why is None or not told.reason:
        return
    is_right = told.reason == why.right
    sign, colour = (RIGHT_SIGN, colours.ready) if is_right else (NOT_YET_SIGN, colours.drying)
    word = _say("That is the reason") if is_right else _say("Another reason holds here")
    yield f"<hr>{_chip(sign, word, colour)}<p>{escape(why.question)}</p>"
    texts, spoken_of = dict(why.because), (why.right, told.reason)
    lettered = list(zip(LETTERS, why.choices, strict=False))
    # What was chosen and what holds stand first: the others are there to look up.
    for letter, one in sorted(lettered, key=lambda each: each[1].id not in spoken_of):
        named = f"{letter}&nbsp;&nbsp;{escape(one.title)}"
        if one.id not in spoken_of:
            yield f"<p>{_quiet_html(named, colours)}</p>"
            continue
        sign, colour = (
            (RIGHT_SIGN, colours.ready) if one.id == why.right else (NOT_YET_SIGN, colours.drying)
        )
        chosen = _say(" (your choice)") if one.id == told.reason else ""
        said = f"<br>{escape(texts[one.id])}" if texts.get(one.id) else ""
        marked = f'<span style="color:{colour}">{sign}</span>'
        yield f"<p>{marked}&nbsp;<b>{named}</b>{_quiet(chosen, colours)}{said}</p>"


def _reasons(told: Told, colours: Colours) -> Iterator[str]:
    if not told.with_reasons:
        return
    for because in told.judged.because:
        # What stands among the cautions of the work is not said again.
        cautions = tuple(one for one in because.cautions if one not in told.drill.cautions)
        # Where the judgement gives the reason word for word, only what stands behind it follows.
        is_said = because.text in told.judged.sentence
        text = "" if is_said else f"<p>{escape(because.text)}</p>"
        yield f"<hr>{text}{_feet(replace(because, cautions=cautions), colours)}"


def _cautions(told: Told, colours: Colours) -> Iterator[str]:
    """Tell the cautions of the work whole, once it is answered."""
    if told.with_reasons and told.drill.cautions:
        title = (
            f'<b style="color:{colours.alarm}">\N{WARNING SIGN}&nbsp;{escape(_say("Caution"))}</b>'
        )
        lines = "<br>".join(escape(one) for one in told.drill.cautions)
        yield f"<hr><p>{title}<br>{lines}</p>"


def _feet(because: Because, colours: Colours) -> str:
    """Tell what stands behind a reason: its force, numbers, cautions, source and rule."""
    feet = [force_words(because.force)] if because.force else []
    feet += [_say("Numbers: {0}.").format(", ".join(because.numbers))] if because.numbers else []
    feet += [_say("Caution: {0}").format(" ".join(because.cautions))] if because.cautions else []
    source = because.source.rstrip(".")
    feet += [_say("Source: {0}.").format(source)] if source else []
    lines = "<br>".join(_quiet(foot, colours) for foot in feet)
    return f"<p>{lines}<br>{_rule(because, colours)}</p>"


def _rule(because: Because, colours: Colours) -> str:
    name = because.name or because.rule
    words = _say("Rule: {0}").format(name)
    if not is_rule(because.rule):
        return _quiet(words, colours)
    href = f"{RULE}{because.rule}"
    return f'<a href="{escape(href)}" style="color:{colours.running}">{escape(words)}</a>'


def _sentence(sign: str, word: str, sentence: str, colour: str) -> str:
    """Return a sentence behind a shape and a word, which many sentences begin with themselves.

    Only the first sentence is as heavy as a verdict.
    """
    first, stop, more = sentence.partition(". ")
    begun = first.removeprefix(word)
    opened = first.split(" ", 1)[0].rstrip(",:;.")
    if begun != first:
        shown = f"{escape(word)}</span>{escape(begun)}"
    elif opened == word.split(" ", 1)[0]:
        shown = f"{escape(opened)}</span>{escape(first.removeprefix(opened))}"
    else:
        shown = f"{escape(word)}</span>: {escape(first)}"
    marked = f'<b><span style="color:{colour}">{sign}&nbsp;{shown}{stop.strip()}</b>'
    return f"<p>{marked} {escape(more)}</p>"


def _chip(sign: str, word: str, colour: str) -> str:
    return f'<p style="color:{colour}"><b>{sign}&nbsp;{escape(word)}</b></p>'


def _quiet(text: str, colours: Colours) -> str:
    return _quiet_html(escape(text), colours)


def _quiet_html(html: str, colours: Colours) -> str:
    return f'<span style="color:{colours.quiet}">{html}</span>'
