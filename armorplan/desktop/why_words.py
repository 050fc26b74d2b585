"""The reasons of a step in plain words: how hard they hold, and where they come from."""

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

from armorplan.app.mending import OF_WAYS
from armorplan.app.rows import WhyLine
from armorplan.relations.model import Force
from armorplan.rules.registry import rule_named


def _tr(text: str) -> str:
    return QCoreApplication.translate("WhyWords", text)


def force_words(force: str) -> str:
    """Return how hard a relation holds, as one says it at the bench."""
    words = {
        Force.CANNOT: _tr("It cannot be done the other way round."),
        Force.SPOIL: _tr("The other way round would spoil the work."),
        Force.EASIER: _tr("The other way round is possible, but harder."),
        Force.USUAL: _tr("Usual practice; the other way round is possible."),
    }
    return next((text for known, text in words.items() if known == force), force)


def strength_words(line: WhyLine) -> str:
    """Return how hard the relation of a line holds, or that the maker overruled it."""
    if line.overruled:
        return _tr("Overruled: it holds nothing up.")
    if line.not_kept:
        return _tr("Not kept. {why}").format(why=line.not_kept)
    return force_words(line.force)


def overruled_words() -> str:
    """Return the word for a step that is no longer waited for because of an overruling."""
    return _tr("overruled")


def aside_words(line: WhyLine) -> str:
    """Return the word for a step that is not waited for, by an overruling or in this order."""
    if line.overruled:
        return overruled_words()
    return _tr("not kept") if line.not_kept else ""


def met_words(*, met: bool) -> str:
    """Return whether what is waited for is done."""
    return _tr("met") if met else _tr("not yet")


def held_words(*, met: bool) -> str:
    """Return whether another step still waits for this one."""
    return _tr("no longer waits") if met else _tr("waits")


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Reasons with the same rule and sentence: one text over all steps it speaks of."""

    lines: tuple[WhyLine, ...]

    @property
    def first(self) -> WhyLine:
        """The line whose sentence and numbers stand for all."""
        return self.lines[0]

    @property
    def met(self) -> bool:
        """Tell whether everything in it is done."""
        return all(line.met for line in self.lines)


def grouped(lines: tuple[WhyLine, ...]) -> tuple[Group, ...]:
    """Return the lines by rule and sentence: unmet first, then what others already see to."""
    found: dict[tuple[str, str, bool, bool, str], list[WhyLine]] = {}
    for line in lines:
        found.setdefault((line.rule, line.text, line.met, line.also, line.not_kept), []).append(
            line
        )
    groups = [Group(lines=tuple(members)) for members in found.values()]
    return tuple(sorted(groups, key=lambda group: (group.met, group.first.also)))


def is_rule(code: str) -> bool:
    """Tell whether a reason comes from a rule of the trade: then the help has a page on it."""
    return rule_named(code) is not None


def rule_words(code: str) -> str:
    """Return a rule's name; its code where the rule is no longer there."""
    rule = rule_named(code)
    return rule.name if rule else code


def footnote(line: WhyLine) -> str:
    """Return where a reason comes from; what no rule of today made is named by its code."""
    source = _tr("Source: {source}.").format(source=line.source.rstrip("."))
    is_known = is_rule(line.rule) or line.rule in OF_WAYS
    return source if is_known else f"{line.rule}. {source}"
