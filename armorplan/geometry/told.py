"""Words of findings: a few things named, the rest counted."""

from collections.abc import Iterable

NAMED = 5
"""So many things of one kind are named in a finding; the rest are counted."""


def quoted(ids: Iterable[str]) -> list[str]:
    """Return ids in quotes."""
    return [f"'{each}'" for each in ids]


def listed(words: list[str], *, named: int = NAMED, more: int = 0) -> str:
    """Return the first few of some words and how many more there are, ``more`` beyond the list."""
    more += max(len(words) - named, 0)
    if more:
        return f"{', '.join(words[:named])} and {more} more"
    if len(words) < 2:  # noqa: PLR2004 - one word alone, or none
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"
