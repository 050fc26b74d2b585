"""How few rounds can do at best, by counting pins.

A seam is on as often as what is seen with it needs, with the pins it leaves them; all seams together
fill no round with more pins than there are (the bound of J. Schönheim, On coverings, 1964, for
seams of unlike need).
"""

from collections import defaultdict

from armorplan.orders.pinning.matching import most_pins
from armorplan.orders.pinning.model import PinProblem


def fewest_by_counting(problem: PinProblem) -> int:
    """Return a number of rounds below which no rounds keep the problem."""
    if not problem.seams:
        return 0
    at_once = most_pins(problem.spots(seam.id for seam in problem.seams), problem.stock)
    beside: dict[str, set[str]] = defaultdict(set)
    for group in problem.together:
        for seam in group:
            beside[seam].update(set(group) - {seam})
    often = {
        seam.id: _often(sum(map(problem.need, beside[seam.id])), at_once - problem.need(seam.id))
        for seam in problem.seams
    }
    filled = sum(problem.need(seam) * times for seam, times in often.items())
    return max(*often.values(), -(-filled // at_once), 1)


def _often(pins_beside: int, room: int) -> int:
    """Return in how many rounds a seam has to be on, with so much room beside it."""
    return max(1, -(-pins_beside // room)) if room > 0 else 1
