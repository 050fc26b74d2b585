"""Headings of the checklist and the closed hours of the chart: each by what it is, and where."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from armorplan.app.bench_states import states_now
from armorplan.app.chart_rows import chart_of
from armorplan.app.checklist_rows import ChecklistFacts, checklist_rows
from armorplan.app.derived import derive_build
from armorplan.app.rows import Grouping
from armorplan.ledger.state import derive
from armorplan.pattern.parts import Piece
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.workshop.shop import one_maker

NOON_AT = datetime(2027, 3, 1, 12, 0, tzinfo=UTC)


def two_of_one_name():
    """Two pieces called alike, of one part each."""
    parts = (sketch_part("upper"), replace(sketch_part("lower"), piece="other"))
    pieces = (Piece(id="piece", name="Lantern plate"), Piece(id="other", name="Lantern plate"))
    pattern = replace(sketch(*parts), pieces=pieces)
    return derive_build(pattern, sketch_shelf(), one_maker(), build="sketch-1")


def headings(derived, grouping, spans):
    states = states_now(derived, derive(()), NOON_AT)
    facts = ChecklistFacts(derived=derived, states=states, timers={}, spans=spans)
    rows = checklist_rows(facts, grouping)
    assert len({row.id for row in rows}) == len(rows)
    return [row for row in rows if row.parent is None]


def test_two_pieces_of_one_name_have_a_heading_each():
    derived = two_of_one_name()
    found = headings(derived, Grouping.PIECE, {})
    assert [heading.title for heading in found] == ["Lantern plate"] * 2
    for heading in found:
        assert len({derived.work.step(step).piece for step in heading.steps}) == 1


def test_two_days_of_one_name_have_a_heading_each():
    derived = two_of_one_name()
    first, *rest = derived.order
    # The first of March is a Monday again eleven years on.
    far_at = NOON_AT.replace(year=2038)
    spans = {first: (NOON_AT, NOON_AT)} | dict.fromkeys(rest, (far_at, far_at))
    found = headings(derived, Grouping.DAY, spans)
    assert [heading.title for heading in found] == ["Monday 01 March"] * 2


def test_an_evening_west_of_greenwich_shows_the_whole_day_of_the_shop():
    derived = derive_build(
        sketch(sketch_part("plate")), sketch_shelf(), one_maker("America/New_York"), build="s-1"
    )
    evening_at = datetime(2027, 3, 2, 1, 0, tzinfo=UTC)  # Monday, eight in the evening
    states = states_now(derived, derive(()), evening_at)
    chart = chart_of(derived, states, {}, evening_at)
    midnight_at = datetime(2027, 3, 1, 5, 0, tzinfo=UTC)
    nine, half_past_five = timedelta(hours=9), timedelta(hours=17, minutes=30)
    assert chart.closed[0] == (midnight_at, midnight_at + nine)
    assert (midnight_at + half_past_five, midnight_at + timedelta(days=1) + nine) in chart.closed
