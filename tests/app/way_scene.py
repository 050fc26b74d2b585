"""Ways back put together by hand, and a bench that has come to a given place."""

from armorplan.app.rows import Grouping
from armorplan.app.way_back_rows import WayBack, WayBackMove
from armorplan.ledger import acting
from armorplan.ledger.state import LedgerState
from armorplan.steps.model import StepKind

NOTHING = LedgerState()


def step_of(bench, subject, kind=StepKind.RIVET):
    """The id of a step by its subject."""
    return next(s for s in bench.ids(kind) if s.endswith(f"/{subject}"))


def drill(bench, subject, **more):
    step = step_of(bench, subject)
    title = bench.session.derived.work.step(step).title
    return WayBackMove(
        id=f"drill {subject}",
        opens=True,
        title=f"Drill out: {title}",
        means="drilled out",
        clears=(step,),
        minutes=6,
        risk_pct=4,
        tool="drill",
        cautions=("Wear eye protection; clamp the work.",),
        **more,
    )


def do(bench, subject, kind=StepKind.RIVET, **more):
    step = step_of(bench, subject, kind)
    title = bench.session.derived.work.step(step).title
    return WayBackMove(
        **{"id": f"do {subject}", "opens": False, "title": title, "step": step, **more}
    )


def way(*moves, means="drilled out", is_best=True):
    return WayBack(
        id="way",
        title="Drill out two rivets",
        means=means,
        moves=moves,
        minutes=sum(move.minutes for move in moves),
        wait_min=sum(move.wait_min for move in moves),
        risk_pct=8,
        risk="small",
        is_best=is_best,
    )


def work_through(bench, steps):
    """Put steps into the ledger as done one after the other, a press each; show them at once."""
    session, events = bench.session, []
    work = session.derived.work
    for step in map(work.step, steps):
        bench.clock.advance(60 * step.minutes)
        press, name = session.press(), (step.id,)
        fits = name if step.kind is StepKind.DRY_FIT else ()
        wet = tuple(drying.id for drying in work.following(step.id))
        events += acting.done(NOTHING, name, press)
        events += acting.sign_off(NOTHING, fits, press)
        events += acting.start_anew(NOTHING, wet, press)
    session.keep(tuple(events), "")


def work_until(bench, *kinds):
    """Work through all before the first step of some kinds; all there is, where none is named."""
    order = bench.session.derived.order
    firsts = [order.index(step) for kind in kinds for step in bench.ids(kind)]
    work_through(bench, order[: min(firsts, default=len(order))])


def tick(bench, *steps):
    """Tick steps, each after its minutes: what dries is dry by then."""
    for step in steps:
        bench.clock.advance(60 * bench.session.derived.work.step(step).minutes)
        bench.session.done((step,))


def rows(bench):
    """The rows of all steps, by id, in the checklist's order."""
    found = bench.session.checklist(Grouping.PIECE)
    return {row.id: row for row in found if row.steps == (row.id,)}


def finish(bench):
    """Tick what is ready and wait for what dries, until all is done; return the steps ticked."""
    return _on(bench, lambda: bench.session.moment().is_done)


def follow(bench):
    """Go on likewise until no way back is left to follow; return the steps ticked."""
    return _on(bench, lambda: not bench.session.way_back.chosen())


def _on(bench, is_over):
    ticked, session = [], bench.session
    while not is_over():
        ready = session.ready_steps()
        if ready:
            tick(bench, ready[0])
            ticked.append(ready[0])
        else:
            turn_at = session.moment().next_turn_at
            bench.clock.advance((turn_at - bench.clock.now()).total_seconds() + 1)
            session.read_along()
    return ticked
