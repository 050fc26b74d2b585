"""What a way back does to the date: by plans of the build with it and as it stands."""

from dataclasses import replace

from app.way_scene import work_until

from armorplan.app.way_back_rows import WayBackMove, WaysBack
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.steps.model import StepKind


def told_last(session, ways):
    *_, last = session.way_back.dating(ways).told()
    return last


def test_waiting_moves_the_date_by_what_it_takes(bench):
    session = bench.session
    work_until(bench, StepKind.RIVET)
    hole = session.derived.pattern.part("petal_left").holes[0].id
    session.way_back.tell(
        Mistake(kind=MistakeKind.WRONG_HOLE, about=(f"petal_left/{hole}",), mm=3.0)
    )
    found = session.way_back.asking()()
    first = next(way for way in found.ways if way.moves)
    quick = WayBackMove(id="m1", opens=False, title="Live with it", minutes=1)
    long = replace(quick, title="Plug the hole", wait_min=3 * 24 * 60)
    ways = WaysBack(
        stuck=(),
        ways=(
            replace(first, id="quick", moves=(quick,)),
            replace(first, id="long", moves=(long,)),
            replace(first, id="none", moves=()),
        ),
    )
    before = session.entries()
    told = {way.id: way.finish for way in told_last(session, ways).ways}
    assert told["quick"] == "as planned"
    assert told["long"].startswith("2 days ")
    assert told["long"].endswith(" later")
    assert told["none"] == ""
    assert session.entries() == before
    assert list(session.way_back.dating(ways).told(lambda: True)) == []
    assert session.way_back.chosen() == ()


def test_nothing_is_said_of_a_build_that_is_done(bench):
    session = bench.session
    work_until(bench)
    ways = WaysBack(stuck=())
    assert list(session.way_back.dating(ways).told()) == []
