"""The minimal sets that make a monotone yes/no function true.

Found by taking away until nothing more can go (shrinking), and by trying what is left when one atom
of each set found so far is kept out, in every minimal way (the sets found and the ways to avoid
them are dual; 'dualise and advance', Gunopulos, Khardon, Mannila and Toivonen, 1997, from memory).
When no way to avoid them leaves the function true, all sets are found.
"""

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass

Atoms = frozenset[str]
Test = Callable[[Atoms], bool]
Hint = Callable[[Atoms], Collection[str]]
MOST_AVOIDING = 512
"""So many ways to avoid what was found are kept in mind at most."""
_MOST_TRIED = 8 * MOST_AVOIDING
_FEW = 24
"""So few atoms are sought among without a hint."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blocking:
    """Minimal sets, and whether they are all there are.

    Attributes:
        sets: each makes the function true, and none of its parts does; the smallest first.
        complete: no other minimal set exists; ``False`` where the search was cut short.
    """

    sets: tuple[Atoms, ...]
    complete: bool


def shrunk(atoms: Sequence[str], is_true: Test, kept: Atoms = frozenset()) -> Atoms:
    """Return a minimal set among atoms that makes a monotone function true; they all do together.

    Args:
        atoms: in the order in which they are given up.
        is_true: monotone.
        kept: what is true without being asked for; it is no part of the answer.
    """
    held, at = kept, 0
    while at < len(atoms):
        more = _spare(atoms[at:], is_true, held)
        at += more
        if at < len(atoms):
            held |= {atoms[at]}
            at += 1
    return held - kept


def _spare(atoms: Sequence[str], is_true: Test, held: Atoms) -> int:
    """Return how many of the first atoms can go together: sought in strides that double, then halved.

    Since more atoms never make the function false, this is where giving them up one by one stops.
    """
    low, stride = 0, 1
    while (high := min(low + stride, len(atoms))) > low and is_true(held.union(atoms[high:])):
        low, stride = high, 2 * stride
    while high - low > 1:
        middle = (low + high) // 2
        if is_true(held.union(atoms[middle:])):
            low = middle
        else:
            high = middle
    return low


def minimal_sets(
    atoms: Iterable[str], is_true: Test, *, most: int = 64, hint: Hint | None = None
) -> Blocking:
    """Return the minimal sets of atoms that make a monotone function true.

    Args:
        atoms: those that come last are given up last, so that the first sets found hold them.
        is_true: adding an atom never makes it false.
        most: so many sets are found at most; then, or when the ways to avoid them become too many,
            the answer is not complete.
        hint: tells of many atoms that make it true a few that do as well.
    """
    order = tuple(dict.fromkeys(atoms))
    if is_true(frozenset()):
        return Blocking(sets=(frozenset(),), complete=True)
    found: list[Atoms] = []
    avoiding: set[Atoms] = {frozenset()}
    futile: set[Atoms] = set()
    while len(avoiding) <= MOST_AVOIDING:
        rest = _rest_of(order, is_true, avoiding, futile)
        if rest is None:
            return Blocking(sets=_sorted(found), complete=True)
        if len(found) == most:
            break
        fresh = _one_of(rest, is_true, hint)
        found.append(fresh)
        if len(avoiding) * len(fresh) > _MOST_TRIED:
            break
        avoiding = _avoiding_too(avoiding, fresh)
        futile &= avoiding
    return Blocking(sets=_sorted(found), complete=False)


def _rest_of(
    order: Sequence[str], is_true: Test, avoiding: set[Atoms], futile: set[Atoms]
) -> Sequence[str] | None:
    """Return atoms among which lies a set unlike those found; ``futile`` gathers what leaves nothing true."""
    for out in sorted(avoiding - futile, key=_rank):
        rest = tuple(atom for atom in order if atom not in out)
        if is_true(frozenset(rest)):
            return rest
        futile.add(out)
    return None


def _one_of(rest: Sequence[str], is_true: Test, hint: Hint | None) -> Atoms:
    """Return a minimal set among atoms that make a function true together."""
    few = hint(frozenset(rest)) if hint is not None and len(rest) > _FEW else rest
    return shrunk([atom for atom in rest if atom in few], is_true)


def _avoiding_too(avoiding: set[Atoms], fresh: Atoms) -> set[Atoms]:
    """Return the minimal sets that have an atom of each set found, the fresh one included."""
    kept = {out for out in avoiding if out & fresh}
    grown = {out | {atom} for out in avoiding - kept for atom in fresh}
    return kept | {out for out in grown if not any(other <= out for other in kept)}


def _rank(atoms: Atoms) -> tuple[int, list[str]]:
    return len(atoms), sorted(atoms)


def _sorted(found: Iterable[Atoms]) -> tuple[Atoms, ...]:
    return tuple(sorted(found, key=_rank))
