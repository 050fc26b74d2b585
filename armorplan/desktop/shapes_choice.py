"""Which measures are shown, and which of them speaks of what is chosen."""

from collections.abc import Iterable
from dataclasses import replace

from armorplan.app.rows import Selection
from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.shapes_words import STANDINGS
from armorplan.kernel.findings import Finding
from armorplan.rules.reaching import BY_REACH

LOOK = ("warning", "error")
"""What of the standings needs a look."""
RULE_TOPICS = {
    "hidden-before-cover": "covers",
    "bend-before-rivets": "bends",
    "flat-rivets-before-curve": "bends",
    "punch-after-forming": "bends",
    "lames-from-cop": "lames",
    **dict.fromkeys(sorted(BY_REACH), "reach"),
}
"""Rules that rest on what was reckoned from the shapes, and the topic that tells it."""
_NEAREST_FIRST = ("joints", "steps", "parts")


def gravest_first(rows: Iterable[ShapeRow]) -> tuple[ShapeRow, ...]:
    """Return rows with the gravest of each topic first, else in their order; topics stay put."""
    kept = tuple(rows)
    topics = tuple(dict.fromkeys(row.topic for row in kept))
    return tuple(
        sorted(
            kept,
            key=lambda row: (topics.index(row.topic), -STANDINGS.index(row.severity)),
        )
    )


def topics_to_open(rows: Iterable[ShapeRow]) -> frozenset[str]:
    """Return the topics in which something needs a look; all of them where nothing does."""
    kept = tuple(rows)
    faulty = frozenset(row.topic for row in kept if row.severity in LOOK)
    return faulty or frozenset(row.topic for row in kept)


def first_to_look_at(rows: Iterable[ShapeRow]) -> str:
    """Return the id of the gravest row that needs a look, the first of its like; else empty."""
    grave = [row for row in rows if row.severity in LOOK]
    return max(grave, key=lambda row: LOOK.index(row.severity)).id if grave else ""


def matching(
    rows: Iterable[ShapeRow], words: str, *, only_to_look_at: bool
) -> tuple[ShapeRow, ...]:
    """Return the rows that hold all these words, in any order and case."""
    wanted = words.casefold().split()
    return tuple(
        row
        for row in rows
        if (not only_to_look_at or row.severity in LOOK) and _holds(row, wanted)
    )


def _holds(row: ShapeRow, wanted: list[str]) -> bool:
    if not wanted:
        return True
    text = f"{row.topic} {row.title} {row.verdict} {row.text}".casefold()
    return all(word in text for word in wanted)


def of_finding(rows: Iterable[ShapeRow], finding: Finding) -> str:
    """Return the id of the measure that tells a finding; empty where none does."""
    return next((row.id for row in rows if finding in row.findings), "")


def about(rows: Iterable[ShapeRow], chosen: Selection) -> str:
    """Return the id of the measure about what is chosen, the gravest first; else empty.

    One about the very fastener comes before one about the step, and that before one that only
    shares a part: a part has many rows, covers and fasteners. Of a part that is chosen by itself,
    all its rows, covers and fasteners speak.
    """
    if chosen.measures:
        return chosen.measures[0]
    kept = tuple(rows)
    nearness = [[row for row in kept if _speaks_of(row, chosen, of)] for of in _NEAREST_FIRST]
    if len(chosen.parts) == 1 and len(chosen.joints) != 1:
        nearness = [[row for near in nearness for row in near]]
    found: list[ShapeRow] = next(filter(None, nearness), [])
    if not found:
        return ""
    return max(found, key=lambda row: STANDINGS.index(row.severity)).id


def about_rule(rows: Iterable[ShapeRow], chosen: Selection, rule: str) -> str:
    """Return the id of the measure a rule rests on, of those about what is chosen; else empty."""
    topic = RULE_TOPICS.get(rule, "")
    return about((row for row in rows if row.topic == topic), replace(chosen, measures=()))


def _speaks_of(row: ShapeRow, chosen: Selection, of: str) -> bool:
    ids: tuple[str, ...] = getattr(chosen, of)
    mine: tuple[str, ...] = getattr(row, of)
    return not set(ids).isdisjoint(mine)
