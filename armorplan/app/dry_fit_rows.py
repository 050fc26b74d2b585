"""The dry fits of a build as rows: the lay-out, the rounds with their pins in order, the looks."""

from collections.abc import Iterable
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.fit_lay_out import LayOutRow, flow_words, lay_out
from armorplan.app.fit_looks import Fitting
from armorplan.app.fit_order import PinReach, pin_reach
from armorplan.app.fit_rounds import RoundRow, round_rows
from armorplan.app.fit_seams import fit_seams, neighbours, seam_need
from armorplan.app.fit_words import fit_words, stuck_words, wanted_pins
from armorplan.app.fit_worn import is_worn, wholes
from armorplan.orders.effort_solver import Solve
from armorplan.orders.pinning.model import PinProblem, PinStock
from armorplan.orders.pinning.rounds import Fewest
from armorplan.steps.model import Step, StepKind
from armorplan.workshop.pins import PinEntry, are_counted


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceFit:
    """The dry fit of one piece or harness on one side.

    Attributes:
        step: id of the dry-fit step; ``title``: what it is a fit of.
        lay_out: the parts in the order in which they are laid down, without pins.
        flow: how lames lie over each other, in words; empty where none do.
        seams: id and name of each seam, in the pattern's order.
        pins_needed: pins for all its seams in one round.
        pins_wanted: id of each size that these are best of, and how many.
        pins_owned: pins owned that fit any of its joints; ``None``: nobody said.
        proved: fewer rounds will not do; ``bound``: how few could do at best.
        words: what of it has to be said in sentences: rounds and pins, what there are too few for.
    """

    step: str
    title: str
    lay_out: tuple[LayOutRow, ...]
    flow: str
    seams: tuple[tuple[str, str], ...]
    rounds: tuple[RoundRow, ...]
    pins_needed: int
    pins_wanted: tuple[tuple[str, int], ...]
    pins_owned: int | None
    proved: bool
    bound: int
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DryFitPlan:
    """All dry fits of a build, in its order, and the pins they are reckoned with."""

    fits: tuple[PieceFit, ...]
    pins: tuple[PinEntry, ...] = ()

    def of(self, step: str) -> PieceFit | None:
        """Return the fit of a dry-fit step, or ``None``."""
        return next((fit for fit in self.fits if fit.step == step), None)

    @property
    def proved(self) -> bool:
        """Of no fit fewer rounds will do."""
        return all(fit.proved for fit in self.fits)


def stock_of(pins: Iterable[PinEntry], most: int | None = None) -> PinStock:
    """Return the pins there are; where nobody said how many, as many as wanted of each size.

    Args:
        pins: the sizes on the shelf.
        most: how many there are in all, of whatever size; ``None``: nobody said.
    """
    held = tuple(pins)
    counted = are_counted(held)
    counts = {pin.id: (pin.owned or 0) if counted else None for pin in held}
    return PinStock(counts=counts, most=most)


def dry_fit_plan(
    derived: Derived, stock: PinStock | None = None, solver: Solve | None = None
) -> DryFitPlan:
    """Return the dry fits of a build.

    Args:
        derived: what follows from its pattern; its shelf holds the sizes of pins.
        stock: the pins there are; those of its shelf otherwise.
        solver: proves how few rounds will do, and may find fewer; never in the window's thread.
    """
    held = stock or stock_of(derived.shelf.pins)
    reach = pin_reach(derived)
    fits = derived.work.of_kind(StepKind.DRY_FIT)
    in_order = sorted(fits, key=lambda fit: derived.place.get(fit.id, 0))
    rounds_of = Fewest(solver)
    return DryFitPlan(fits=tuple(_piece_fit(reach, fit, held, rounds_of) for fit in in_order))


def _piece_fit(reach: PinReach, fit: Step, stock: PinStock, rounds_of: Fewest) -> PieceFit:
    derived = reach.derived
    seams = fit_seams(derived, fit)
    worn = is_worn(derived, fit, seams)
    fitting = Fitting(derived=derived, fit=fit, seams=seams, is_worn=worn)
    pairs = neighbours(derived.assembly, seams)
    problem = PinProblem(
        seams=tuple(seam_need(derived, seam, derived.shelf.pins) for seam in seams),
        together=tuple(dict.fromkeys((*pairs, *wholes(derived, fit, seams)))),
        stock=stock,
    )
    found = rounds_of(problem)
    rounds = round_rows(fitting, reach, problem, found)
    stuck = dict.fromkeys(pin.name for each in rounds for pin in each.pins if pin.is_stuck)
    return PieceFit(
        step=fit.id,
        title=fit.title,
        lay_out=lay_out(derived, fit),
        flow=flow_words(derived.assembly, fit),
        seams=tuple((seam.id, seam.name) for seam in seams),
        rounds=rounds,
        pins_needed=sum(problem.need(seam.id) for seam in seams),
        pins_wanted=tuple(sorted(wanted_pins(problem).items())),
        pins_owned=pins_owned(problem),
        proved=found.proved,
        bound=found.bound,
        words=(*fit_words(fitting, problem, found, told=len(rounds)), *stuck_words(tuple(stuck))),
    )


def pins_owned(problem: PinProblem) -> int | None:
    """Return how many of the pins there are fit any joint of a fit; ``None`` where nobody said."""
    stock = problem.stock
    spots = problem.spots(seam.id for seam in problem.seams)
    counts = [
        stock.counts.get(kind, 0) for kind in {kind for spot in spots for kind in spot.kinds}
    ]
    known = [count for count in counts if count is not None]
    if len(known) < len(counts):
        return stock.most
    return sum(known) if stock.most is None else min(sum(known), stock.most)
