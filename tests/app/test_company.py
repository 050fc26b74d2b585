"""At the bench and in the checklist it is told who does a step with whom beside."""

from dataclasses import replace

import pytest

from armorplan.app.rows import Grouping
from armorplan.app.session import Session
from armorplan.desktop.bench_words import facts_of
from armorplan.schedule.hands import beside_named, way_name
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import Person, usual_hours

MAKER = Person(id="maker", name="Maker", hours=usual_hours())
APPRENTICE = Person(
    id="apprentice",
    name="Apprentice",
    hours=usual_hours(),
    can=("cut",),
    beside=("rivet",),
    paces=(("rivet", 0.5),),
)
WORDS = "Apprentice, with Maker beside"


@pytest.fixture
def pair(begun, bench):
    """The bench of a shop whose apprentice rivets beside the maker, with its days planned."""
    return planned_for(begun, bench, "")


def planned_for(begun, bench, who):
    """The same, in a window in which somebody works."""
    _, opened = begun
    shop = replace(opened.derived.shop, people=(MAKER, APPRENTICE))
    derived = replace(opened.derived, shop=shop)
    here = (bench.workshop, bench.clock, bench.new_id)
    bench.session = Session(opened.build, derived, *here, who=who)
    bench.plan()
    return bench


def test_a_way_is_named_after_who_is_beside():
    assert beside_named(way_name("anvil", (MAKER, APPRENTICE))) == ("maker", "apprentice")
    assert beside_named(way_name("anvil")) == beside_named("") == ()


def test_the_card_and_the_checklist_name_both_of_a_pair(pair):
    rows = {row.id: row.company for row in pair.session.checklist(Grouping.PIECE)}
    in_pairs = {step for step, company in rows.items() if company}
    assert in_pairs
    assert in_pairs <= set(pair.ids(StepKind.RIVET))
    assert {rows[step] for step in in_pairs} == {WORDS}
    step = min(in_pairs)
    card = pair.session.bench_card(step)
    assert card.company == WORDS
    facts, needed = facts_of(card)
    assert WORDS in facts[:needed]
    assert pair.session.bench_card(pair.ids(StepKind.CUT)[0]).company == ""


@pytest.mark.parametrize(("who", "words"), [("Apprentice", WORDS), ("Maker", "")])
def test_who_is_at_it_counts_and_what_is_done_says_nothing(begun, bench, who, words):
    pair = planned_for(begun, bench, who)
    pair.do_until(StepKind.RIVET)
    first = next(s for s in pair.session.ready_steps() if s in pair.ids(StepKind.RIVET))
    pair.session.start((first,))
    assert pair.session.bench_card(first).company == words
    pair.session.done((first,))
    row = next(r for r in pair.session.checklist(Grouping.PIECE) if r.id == first)
    assert row.company == ""
    assert pair.session.bench_card(first).company == ""
