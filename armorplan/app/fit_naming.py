"""Names of a dry fit as a list in words."""

from collections.abc import Sequence


def listed(names: Sequence[str]) -> str:
    """Return names as a list: one, two and three."""
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
