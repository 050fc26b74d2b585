"""Which of many wishes fit beside each other, the first before the later, in few trials."""

from collections.abc import Callable, Collection, Sequence

Trial = Callable[[list[int]], Collection[int] | None]
"""Tries wishes all at once, and holds on to them and returns ``None`` where they fit; otherwise
returns such of them as cannot all be kept beside what is held, or none where that is not known."""


def not_fitting(wishes: Sequence[int], trial: Trial) -> list[int]:
    """Make wishes hold, each if it fits beside those before it; return the others.

    All are tried at once. Where they do not fit, the last of those that cannot all be kept does
    not fit beside the rest of them: it is left out, and comes back if one of that rest is left out
    later. So it takes about one trial for each that does not fit. Where nothing is known of what
    stands in the way, halves are tried.
    """
    against: dict[int, frozenset[int]] = {}
    for _ in range(len(wishes) + 1):
        tried = [wish for wish in wishes if wish not in against]
        core = trial(tried) if tried else None
        if core is None:
            return [wish for wish in wishes if wish in against]
        clash = [wish for wish in tried if wish in core]
        if not clash:
            break
        last = clash[-1]
        against = {wish: rest for wish, rest in against.items() if last not in rest}
        against[last] = frozenset(clash)
    half = len(wishes) // 2
    if not half:
        return list(wishes)
    return not_fitting(wishes[:half], trial) + not_fitting(wishes[half:], trial)
