"""Words of findings: a few things named, the rest counted."""

from collections.abc import Iterable

NAMED = 5
"""So many things of one kind are named in a finding; the rest are counted."""


def begun(words: str) -> str:
    """Return words as they begin a sentence; names keep their capitals."""
    return f"{words[:1].upper()}{words[1:]}"


def quoted(ids: Iterable[str]) -> list[str]:
    """Return ids in quotes."""
    return [f"'{each}'" for each in ids]


def listed(words: list[str], *, named: int = NAMED, last: str = " and ") -> str:
    """Return the first few of some words and how many more there are; ``last`` before the last."""
    more = len(words) - named
    if more > 0:
        return f"{', '.join(words[:named])} and {more} more"
    return last.join([*filter(None, [", ".join(words[:-1])]), *words[-1:]])
