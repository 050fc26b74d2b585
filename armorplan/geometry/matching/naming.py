"""Words that two parts have in common: of what fits as well, like goes with like."""

import re
from collections import Counter
from collections.abc import Sequence

import numpy as np

from armorplan.geometry.alike.closed_lines import Truths
from armorplan.pattern.parts import Part

_MOST = 3
"""A word of more parts than this says what they are, not where they belong."""
_LETTERS = re.compile(r"[^\W\d_]{3,}")
_MOST_PARTS = 1_000
"""The names of more parts are not compared."""


def shared_words(parts: Sequence[Part]) -> dict[tuple[int, int], str]:
    """Return for numbers of two parts, the lower first, the first word that only few have."""
    if len(parts) > _MOST_PARTS:
        return {}
    words = [dict.fromkeys(_LETTERS.findall(part.name.casefold())) for part in parts]
    often = Counter(word for each in words for word in each)
    users: dict[str, list[int]] = {}
    for at, each in enumerate(words):
        for word in each:
            if 1 < often[word] <= _MOST:
                users.setdefault(word, []).append(at)
    found: dict[tuple[int, int], str] = {}
    for word, held in users.items():
        for at, one in enumerate(held):
            for other in held[at + 1 :]:
                found.setdefault((one, other), word)
    return found


def named_alike(parts: Sequence[Part]) -> Truths:
    """Return for any two parts whether they have such a word in common."""
    alike = np.zeros((len(parts), len(parts)), dtype=np.bool_)
    for one, other in shared_words(parts):
        alike[one, other] = alike[other, one] = True
    return alike
