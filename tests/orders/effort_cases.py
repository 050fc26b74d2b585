"""Small problems of least effort, and a second opinion on them by trying every order."""

from itertools import permutations

from hypothesis import strategies as st

from armorplan.orders.effort_model import Atom, EffortProblem, Rise

NAMES = "abcdefg"


def problem(names, *, rises=(), **more):
    """Return a problem of atoms that take 10 minutes each."""
    atoms = tuple(Atom(id=name, minutes=10) for name in names)
    return EffortProblem(atoms=atoms, rises=tuple(rises), **more)


def rise(atom, after, minutes, **more):
    return Rise(atom=atom, after=frozenset(after), minutes=minutes, **more)


def allowed(order, of):
    """Tell whether an order keeps the hard relations, word by word from their definition."""
    place = order.index
    return all(place(a) < place(b) for a, b in of.before) and all(
        any(place(a) < place(b) for b in group) for a, group in of.before_all
    )


def work(order, of):
    """Return the minutes of work of an order, word by word from the definition of a rise."""
    total = sum(atom.minutes for atom in of.atoms)
    for at, atom in enumerate(order):
        met = [r for r in of.rises if r.atom == atom and r.after <= set(order[:at])]
        for why in {r.why for r in met}:
            total += max(r.minutes for r in met if r.why == why)
    return total


def best_by_all(of):
    """Return the least work of any order that keeps the hard relations; ``None`` where none does."""
    orders = permutations([atom.id for atom in of.atoms])
    return min((work(order, of) for order in orders if allowed(order, of)), default=None)


def _other_than(name, names):
    return st.frozensets(st.sampled_from([n for n in names if n != name]), min_size=1, max_size=3)


@st.composite
def problems(draw, names=NAMES):
    """Draw atoms with whole and half minutes, rises of two kinds and hard relations."""
    one = st.sampled_from(names)
    rises, before, before_all = [], [], []
    for name in draw(st.lists(one, max_size=10)):
        minutes = draw(st.integers(0, 12)) / 2
        why = draw(st.sampled_from(["depth", "tool"]))
        tool = draw(st.sampled_from(["", "anvil", "stake"]))
        after = draw(_other_than(name, names))
        rises.append(rise(name, after, minutes, why=why, tool=tool))
    for name in draw(st.lists(one, max_size=3)):
        before += [(name, other) for other in draw(_other_than(name, names))]
    firsts = draw(st.lists(one, max_size=2))
    before_all += [(name, draw(_other_than(name, names))) for name in firsts]
    return problem(
        names,
        rises=rises,
        before=tuple(before),
        before_all=tuple(before_all),
        tool_change_min=1,
        turn_over_min=0.5,
    )
