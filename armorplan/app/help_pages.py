"""The pages of the help, as Markdown: those that ship as files, and one for each rule."""

import re
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from pathlib import Path

from armorplan.kernel.shipped import resources_folder
from armorplan.rules.model import Rule
from armorplan.rules.pages import FORCES, rule_page
from armorplan.rules.registry import all_rules

RULE = "rule:"
"""A page's id begins so where it is a rule's; its code follows."""
_FORMAT = "format"
_EMPHASISED = re.compile(r"(?<!\*)\*(?P<title>[^*\n]+)\*(?!\*)")
_SECTION = re.compile(r"^## +(?P<title>.+)$", re.MULTILINE)


class HelpGroup(StrEnum):
    """Groups of pages, in the order a newcomer reads them."""

    BEGIN = "Begin"
    FORMAT = "The format of a pattern"
    RULES = "The rules and why they hold"


@dataclass(frozen=True, slots=True, kw_only=True)
class HelpPage:
    """One page. ``id`` is stable, so that other places can lead to it."""

    id: str
    title: str
    group: HelpGroup
    words: str
    """What is looked through for words, without the small cases of a rule."""


@cache
def help_pages() -> tuple[HelpPage, ...]:
    """Return all pages, by group, in the order they are read; rules by name."""
    folder = resources_folder() / "help"
    begin = (
        "at_the_bench",
        "way_back",
        "dry_fit",
        "timers",
        "drying",
        "air",
        "learning",
        "practice",
        "week",
        "cutting",
        "sheet",
        "what_if",
        "promise",
        "first_pattern",
        "bring_in",
        "edit_shapes",
        "corrections",
        "to_the_wearer",
        "shapes",
        "reach",
        "own_order",
        "workshop",
        "changes",
    )
    rules = sorted(all_rules(), key=lambda rule: rule.name.casefold())
    return (
        *(_file_page(folder / f"{name}.md") for name in begin),
        *_sections((folder / f"{_FORMAT}.md").read_text(encoding="utf-8")),
        *(_rule(rule) for rule in rules),
    )


def help_page(page_id: str) -> HelpPage | None:
    """Return the page of this id, or ``None``."""
    return next((page for page in help_pages() if page.id == page_id), None)


@cache
def page_text(page_id: str) -> str:
    """Return a page as Markdown, empty for none; emphasised titles of other pages lead there.

    A rule's page is made from its small cases, which takes a moment: so each is made when it is
    first read.
    """
    if page_id.startswith(RULE):
        code = page_id.removeprefix(RULE)
        return next((rule_page(rule) for rule in all_rules() if rule.code == code), "")
    page = help_page(page_id)
    return _linked(page) if page else ""


def _linked(page: HelpPage) -> str:
    others = {
        name: other.id
        for other in help_pages()
        for name in (other.title, other.title.partition(":")[0])
        if other.id != page.id
    }

    def link(found: re.Match[str]) -> str:
        to = others.get(found["title"])
        return f"[{found['title']}](page:{to})" if to else found[0]

    return _EMPHASISED.sub(link, page.words)


def pages_with(words: str) -> tuple[HelpPage, ...]:
    """Return the pages that hold all these words; those with one of them in the title first."""
    wanted = words.casefold().split()
    found = [p for p in help_pages() if _holds(f"{p.title} {p.words}", wanted)]
    return tuple(sorted(found, key=lambda p: not _holds(p.title, wanted)))


def _holds(text: str, wanted: list[str]) -> bool:
    folded = text.casefold()
    return all(word in folded for word in wanted)


def _file_page(file: Path) -> HelpPage:
    text = file.read_text(encoding="utf-8")
    return HelpPage(id=file.stem, title=_title(text), group=HelpGroup.BEGIN, words=text)


def _title(text: str) -> str:
    return text.lstrip().partition("\n")[0].removeprefix("# ").strip()


def _rule(rule: Rule) -> HelpPage:
    cases = (example.title for example in rule.examples)
    words = (rule.code, rule.why, FORCES[rule.force], rule.mend, rule.source, *cases)
    return HelpPage(
        id=f"{RULE}{rule.code}", title=rule.name, group=HelpGroup.RULES, words="\n".join(words)
    )


def _sections(text: str) -> tuple[HelpPage, ...]:
    """Return the format reference as one page for each of its sections, the opening one first."""
    heads = list(_SECTION.finditer(text))
    ends = [*(head.start() for head in heads), len(text)]
    opening = HelpPage(
        id=_FORMAT, title=_title(text), group=HelpGroup.FORMAT, words=text[: ends[0]]
    )
    sections = (
        HelpPage(
            id=f"{_FORMAT}:{re.sub(r'[^a-z0-9]+', '-', head['title'].lower()).strip('-')}",
            title=head["title"].replace("`", "").strip(),
            group=HelpGroup.FORMAT,
            words=text[head.start() : end].replace("## ", "# ", 1),
        )
        for head, end in zip(heads, ends[1:], strict=True)
    )
    return (opening, *sections)
