"""Every kind of relation in what the views show: states, reasons, graph, checklist, presses."""

from dataclasses import replace
from datetime import UTC, datetime
from types import SimpleNamespace

import pytest
from clocks import FakeClock

from armorplan.app.awaited import nearest_awaited
from armorplan.app.bench_states import by_hand, states_now
from armorplan.app.checklist_rows import ChecklistFacts, checklist_rows
from armorplan.app.derived import derive_build
from armorplan.app.graph_rows import Graphs
from armorplan.app.kept_relations import standing_relations
from armorplan.app.moment import BenchMoment
from armorplan.app.presses import Presses
from armorplan.app.reason_rows import Reasons
from armorplan.app.rows import BenchState, Grouping
from armorplan.app.snapshots import relations_from, relations_text
from armorplan.assembly.model import Side
from armorplan.ledger.acting import done, press_now
from armorplan.ledger.state import derive
from armorplan.orders.next_steps import standing
from armorplan.relations.index import index_relations
from armorplan.relations.model import AfterAny, Apart, Before, Force, Reason, Together
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import Step, StepKind, Work
from armorplan.workshop.shop import one_maker

NOW_AT = datetime(2026, 11, 30, 9, tzinfo=UTC)
CUTS = tuple(f"b/piece/single/cut/{part}" for part in ("dag", "fin", "hem", "lug"))
DAG, FIN, HEM, LUG = CUTS


def reason(text, **more):
    return Reason(rule="own", text=text, force=Force.CANNOT, source="the maker", **more)


ANY = AfterAny(
    then=DAG, of=frozenset((FIN, HEM)), reason=reason("One must be there to lay it on.")
)
ONE_GO = Together(of=frozenset((FIN, HEM)), reason=reason("One hide, one go."))
PRESS = Apart(of=frozenset((FIN, LUG)), on="press", reason=reason("There is one press."))
OVERRULED = Before(
    first=LUG, then=FIN, reason=reason("It is usual.", overruled=True, note="Not with this hide.")
)
KINDS = (ANY, ONE_GO, PRESS, OVERRULED)


@pytest.fixture(scope="module")
def derived():
    pattern = sketch(*(sketch_part(part) for part in ("dag", "fin", "hem", "lug")))
    shop = one_maker("UTC")
    fresh = derive_build(pattern, sketch_shelf(), shop, build="b")
    kept = (*fresh.relations, *KINDS)
    made = derive_build(pattern, sketch_shelf(), shop, build="b", kept=kept)
    assert made.work.has(DAG), [step.id for step in made.work.steps]
    return made


def after(*steps):
    clock = FakeClock(NOW_AT)
    events = []
    for number, step in enumerate(steps):
        press = press_now("b", f"press-{number}", clock)
        events += done(derive(events), (step,), press)
    return derive(events)


def before_of(derived, step):
    """Return the steps in front of one in the order."""
    return derived.order[: derived.place[step]]


def test_the_order_keeps_them(derived):
    assert not derived.sequence.conflict
    assert derived.place[DAG] > min(derived.place[FIN], derived.place[HEM])
    assert abs(derived.place[FIN] - derived.place[HEM]) == 1


def test_a_step_begun_in_one_go_shuts_others_out(derived):
    first, then = sorted((FIN, HEM), key=derived.place.__getitem__)
    ledger = after(*before_of(derived, first), first)
    states = states_now(derived, ledger, NOW_AT)
    assert states.of(then) is BenchState.READY
    assert [s for s, state in states.states.items() if state is BenchState.READY] == [then]
    reasons = Reasons(derived, states, ledger)
    held = [line for line in reasons.why(LUG).needs if line.text == ONE_GO.reason.text]
    assert [(line.other, line.met) for line in held] == [(then, False)]


def test_what_came_between_is_done_early(derived):
    first, _then = sorted((FIN, HEM), key=derived.place.__getitem__)
    ledger = after(*before_of(derived, first), first, LUG)
    states = states_now(derived, ledger, NOW_AT)
    assert states.of(LUG) is BenchState.EARLY
    assert ONE_GO in states.standing.set_aside


def pressed(derived, step, *before):
    """Return what is said when a step is ticked after others."""
    clock = FakeClock(NOW_AT)
    moment = BenchMoment(derived, after(*before), clock, None)
    return Presses(derived, "b", clock, lambda: "press").done(moment, (step,))[1]


def test_a_press_that_comes_between_is_told(derived):
    first, _then = sorted((FIN, HEM), key=derived.place.__getitem__)
    said = pressed(derived, LUG, *before_of(derived, first), first)
    assert "Nothing should have come between '" in said
    assert said.endswith(ONE_GO.reason.text)


def test_a_press_before_any_of_them_is_told(derived):
    first = min((FIN, HEM), key=derived.place.__getitem__)
    said = pressed(derived, DAG, *before_of(derived, first))
    titles = [f"'{derived.work.step(step).title}'" for step in (FIN, HEM)]
    assert f"{titles[0]} or {titles[1]} should have come first" in said


def test_the_checklist_names_the_step_to_wait_for(derived):
    first, then = sorted((FIN, HEM), key=derived.place.__getitem__)
    ledger = after(*before_of(derived, first), first)
    states = states_now(derived, ledger, NOW_AT)
    facts = ChecklistFacts(derived=derived, states=states, timers={}, spans={})
    titles = {row.id: row.waits_for for row in checklist_rows(facts, Grouping.PIECE)}
    assert titles[LUG] == derived.work.step(then).title
    assert nearest_awaited((ANY,), DAG, frozenset(), derived.place) == first
    assert nearest_awaited((ANY, PRESS, ONE_GO), FIN, frozenset(), derived.place) is None


def test_a_drying_that_ends_comes_between_nothing():
    work = Work(
        steps=tuple(
            Step(
                id=name,
                kind=StepKind.DYE if attended else StepKind.DRY,
                title=name,
                piece="p",
                side=Side.SINGLE,
                tray="t",
                parts=(),
                minutes=10,
                attended=attended,
            )
            for name, attended in (("a", True), ("b", True), ("dry", False), ("x", True))
        )
    )
    one_go = Together(of=frozenset("ab"), reason=reason("One bath."))
    index = index_relations(("a", "b", "dry", "x"), (one_go,))
    build = SimpleNamespace(work=work, index=index)
    assert by_hand(build, ("a", "dry", "b")) == ("dry", "a", "b")
    assert standing(by_hand(build, ("a", "dry")), index).may_come_next == ("b",)
    assert standing(by_hand(build, ("a", "x")), index).set_aside == (one_go,)


def test_each_kind_has_its_line(derived):
    ledger = derive(())
    reasons = Reasons(derived, states_now(derived, ledger, NOW_AT), ledger)
    by_text = {line.text: line for line in reasons.why(FIN).needs}
    assert by_text[ONE_GO.reason.text].other == HEM
    assert by_text[PRESS.reason.text].other == LUG
    assert by_text[PRESS.reason.text].met
    overruled = by_text["It is usual. Not with this hide."]
    assert overruled.overruled
    assert overruled.met
    (any_line,) = (x for x in reasons.why(DAG).needs if x.text == ANY.reason.text)
    assert " or " in any_line.other_title
    assert not any_line.met
    assert DAG in {line.other for line in reasons.why(HEM).holds_up}


def test_the_graph_has_an_arrow_from_the_first_of_any_and_none_for_what_was_overruled(derived):
    rows = Graphs(derived).steps(lambda _: BenchState.WAITING)
    group = {step: node.id for node in rows.nodes for step in node.steps}
    arrows = {(edge.tail, edge.head) for edge in rows.edges}
    assert (group[LUG], group[FIN]) not in arrows


def test_kept_relations_of_every_kind_are_matched_and_stay_overruled(derived):
    stands = standing_relations(
        tuple(replace(r, reason=replace(r.reason, overruled=False)) for r in KINDS), KINDS
    )
    assert (stands.added, stands.gone) == (0, 0)
    assert stands.relations == KINDS
    assert relations_from(relations_text(KINDS)) == KINDS
