"""``armorplan why``: does one thing have to come before another, and by what."""

from argparse import Namespace
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from textwrap import wrap

from armorplan.app.between_links import BetweenLink
from armorplan.app.between_rows import BetweenRow, between_row
from armorplan.app.between_words import (
    aside_mark,
    link_foot,
    link_words,
    numbered,
    side_words,
)
from armorplan.app.derived import Derived
from armorplan.app.turned_orders import joint_title
from armorplan.cli.exits import CLEAN
from armorplan.cli.in_shop import derived_for
from armorplan.cli.reading import say, say_json
from armorplan.geometry.reach.firm_words import firm_words, flips_told
from armorplan.geometry.reach.firmness import (
    Flip,
    firmness,
    orders_by_reach,
)
from armorplan.kernel.errors import ArmorplanError

_WIDE = 100
_MEND = (
    "Name two: armorplan why PATTERN A B, each the id or the name of a joint, row, form, part "
    "or step; the last part of a step's id will do."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyReport:
    """What ``--json`` answers."""

    pattern: str
    between: BetweenRow | None
    flips: tuple[Flip, ...] | None


def why(chosen: Namespace) -> int:
    """Print which of two comes first and why; return 0.

    Raises:
        ArmorplanError: one of the two is missing, unknown, or stands for several things.
    """
    asked = bool(chosen.first and chosen.other)
    if not asked and (chosen.first or not chosen.firm):
        raise ArmorplanError(_MEND)
    derived = derived_for(chosen)
    row = between_row(derived, chosen.first, chosen.other) if asked else None
    flips = firmness(derived.pattern, derived.shelf) if chosen.firm else None
    if chosen.json:
        say_json(WhyReport(pattern=derived.pattern.name, between=row, flips=flips))
        return CLEAN
    for line in (
        *(_lines(row) if row else ()),
        *(() if flips is None else _firm_lines(derived, flips)),
    ):
        say(line)
    return CLEAN


def _firm_lines(derived: Derived, flips: tuple[Flip, ...]) -> Iterator[str]:
    orders = orders_by_reach(derived.pattern, derived.shelf)
    yield from wrap(firm_words(flips, orders=orders), _WIDE)
    for told in flips_told(flips, partial(joint_title, derived)):
        yield from wrap(told, _WIDE, initial_indent="  ", subsequent_indent="    ")


def _lines(row: BetweenRow) -> Iterator[str]:
    yield from wrap(row.sentence, _WIDE)
    yield from filter(None, (side_words(row),))
    for at, link in enumerate(row.chain):
        yield ""
        yield from _link_lines(link, numbered(row, at))
    for link in row.aside:
        yield ""
        yield from _link_lines(link, aside_mark(link))
    for line in row.other_order:
        yield ""
        yield from wrap(line, _WIDE)


def _link_lines(link: BetweenLink, mark: str) -> Iterator[str]:
    yield from wrap(f"{mark}{link.order}", _WIDE, subsequent_indent="    ")
    for words in (link_words(link), link_foot(link)):
        yield from wrap(words, _WIDE, initial_indent="    ", subsequent_indent="    ")
