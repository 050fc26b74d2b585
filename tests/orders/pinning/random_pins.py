"""Small random dry fits, and the fewest rounds of them by trying every choice."""

from itertools import combinations

from hypothesis import strategies as st

from armorplan.orders.pinning.matching import has_pins
from armorplan.orders.pinning.model import PinProblem, PinSpot, PinStock, SeamNeed

KINDS = ("thin", "middling", "thick")


@st.composite
def problems(draw, most_seams=5):
    """A problem of a few seams, some of them seen together, with scarce pins of three kinds."""
    names = [f"s{at}" for at in range(draw(st.integers(1, most_seams)))]
    seams = tuple(
        SeamNeed(
            id=name,
            spots=tuple(
                PinSpot(
                    joint=f"{name}.{at}",
                    kinds=tuple(draw(st.permutations(KINDS)))[: draw(st.integers(1, 3))],
                )
                for at in range(draw(st.integers(1, 3)))
            ),
        )
        for name in names
    )
    pairs = draw(
        st.sets(
            st.sampled_from([*combinations(names, 2), *combinations(names, 3)] or [tuple(names)])
        )
    )
    counts = {kind: draw(st.one_of(st.none(), st.integers(0, 5))) for kind in KINDS}
    stock = PinStock(counts=counts, most=draw(st.one_of(st.none(), st.integers(1, 9))))
    return PinProblem(
        seams=seams, together=tuple(sorted(p for p in pairs if len(p) > 1)), stock=stock
    )


def fewest_by_trying(problem):
    """The fewest rounds of what can be pinned at all: every choice of sets of seams that have pins."""
    pinnable = [s.id for s in problem.seams if has_pins(s.spots, problem.stock)]
    sets = [
        on
        for size in range(1, len(pinnable) + 1)
        for on in combinations(pinnable, size)
        if has_pins(problem.spots(on), problem.stock)
    ]
    wanted = {(seam,) for seam in pinnable}
    wanted |= {
        g
        for g in problem.together
        if {*g} <= {*pinnable} and has_pins(problem.spots(g), problem.stock)
    }
    shown = [{want for want in wanted if {*want} <= {*on}} for on in sets]
    best = {frozenset(): 0}
    front = [frozenset()]
    rounds = 0
    while frozenset(wanted) not in best:
        rounds += 1
        front = {seen | more for seen in front for more in shown} - set(best)
        best |= dict.fromkeys(front, rounds)
    return best[frozenset(wanted)]
