"""What a maker asks of the weeks, in rows and sentences; nothing here needs the solver's process."""

from dataclasses import replace
from datetime import timedelta
from threading import Event
from time import monotonic
from types import SimpleNamespace

import pytest
from schedule.hand_shops import HOUR, NAMES, lames, racks
from schedule.small_problems import by_hand, problem

from armorplan.app import why_none
from armorplan.app.shown_plan import ShownPlan
from armorplan.app.what_if_plan import Asked
from armorplan.app.wishes import Wishes
from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.checker import violations
from armorplan.schedule.naming import Naming
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Plan, Status
from armorplan.schedule.what_if import Away, MorePlaces


class _NoSolver:
    def solve(self, model, **_):
        raise SolverLostError(str(model.effort))


SERIAL = Wishes(solver=_NoSolver(), each_s=0.0)
MORE = Asked(text="rack:+1", title="one more", whats=(MorePlaces(resource="rack", amount=1),))
ILL = Asked(text="away:m", title="away", whats=(Away(who="m", window=(0, 14 * 24 * HOUR)),))


def go_on():
    return False


def test_plans_stand_side_by_side_and_say_what_differs():
    bench = racks()
    rows = list(SERIAL.what_if(bench, first_plan(bench), (MORE, ILL), Naming(), go_on))
    assert [(r.key, r.is_last) for r in rows] == [
        ("", True),
        ("rack:+1", False),
        ("away:m", False),
        ("rack:+1", True),
        ("away:m", True),
    ]
    at_hand, more, ill = rows[0], rows[3], rows[4]
    assert more.finish_at < at_hand.finish_at
    assert more.late_min < at_hand.late_min
    assert more.against.startswith("Ends ")
    assert "sooner" in more.against
    assert "less late" in more.against
    assert len(more.builds) == 6
    assert ill.finish_at is None
    assert "hours" in ill.against


def test_a_stop_ends_after_the_plan_at_hand():
    bench = racks()
    rows = list(SERIAL.what_if(bench, first_plan(bench), (MORE,), Naming(), lambda: True))
    assert [r.key for r in rows] == [""]


def test_no_difference_is_said():
    bench = racks(pieces=1)
    rows = list(SERIAL.what_if(bench, first_plan(bench), (MORE,), Naming(), go_on))
    assert rows[-1].against == "No difference."


@pytest.fixture(scope="module")
def ways():
    from armorplan.solving.keeper import SolverKeeper

    with SolverKeeper() as solver:
        why = Wishes(solver=solver, each_s=0.5).why_none(
            lames(), replace(NAMES, builds={"gorget": "Gorget"}), go_on
        )
        return why.words, list(why.rows())


def test_why_there_is_no_plan_is_said_with_what_would_free_it(ways):
    words, rows = ways
    assert "only the maker may do “Bend the lames” and is away Tuesday 13:00–17:00" in words
    said = {row.title: row for row in rows}
    assert set(said) >= {
        "The apprentice may do “Bend the lames” as well",
        "“Bend the lames” may start up to 19 h after “Dip the lames”, not 1 h",
    }
    softened = said["“Bend the lames” may start up to 19 h after “Dip the lames”, not 1 h"]
    assert softened.deed == "soften"
    assert softened.late == (("Gorget", 30),)
    assert softened.price == "All is finished Wednesday 08:30; Gorget 30 min late."
    taught = said["The apprentice may do “Bend the lames” as well"]
    assert taught.price.endswith("nothing is late.")


def test_somebody_away_is_asked_to_come_for_as_long_as_it_takes(ways):
    _, rows = ways
    (come,) = [r for r in rows if r.title.startswith("The maker is at the bench")]
    assert come.title == "The maker is at the bench Tuesday 13:15–14:00"
    assert come.deed == "add"


def tight():
    """Two that both have to start by 8:10 and take half an hour each: only a solver proves it."""
    return problem(*(by_hand(name, 30, latest_start_min=10) for name in "ab"))


def test_where_nothing_is_proved_no_conflict_is_made_up():
    why = SERIAL.why_none(tight(), NAMES, go_on)
    assert why.words == "Whether a plan is possible could not be told in the time given."
    assert list(why.rows()) == []


class _Endless:
    """A solver that never answers, not even to a stop."""

    def solve(self, model, **_):
        Event().wait(30)
        raise SolverLostError(str(model.effort))


def test_a_solver_that_does_not_answer_holds_up_nobody():
    began, said = monotonic(), []
    wishes = Wishes(solver=_Endless(), each_s=3.0, within_s=0.4)
    why = wishes.why_none(tight(), NAMES, go_on, said.append)
    assert why.words == "Whether a plan is possible could not be told in the time given."
    assert monotonic() - began < 5
    assert said == ["Looking for what stands against a plan …"]


def test_what_was_proved_by_a_search_is_not_doubted_where_there_is_no_time_for_more():
    known = Plan(status=Status.NONE, conflict="Dip and bend clash.")
    wishes = Wishes(solver=_Endless(), each_s=3.0, within_s=0.4)
    why = wishes.why_none(tight(), NAMES, go_on, known=known)
    assert why.words == "No plan is possible: Dip and bend clash."
    assert "not all that might free it was tried" in why.tried.words()


def test_ways_out_come_one_by_one_and_end_with_the_seconds(monkeypatch):
    """The second way out hangs; the first is told, and that there was more."""
    monkeypatch.setattr(why_none, "ways_out", hanging)
    monkeypatch.setattr(why_none, "mend_row", lambda _problem, freed, _naming: freed)
    monkeypatch.setattr(why_none, "claim_words", lambda *_: "it is")
    known = Plan(status=Status.NONE, conflict="Clash.")
    said, began = [], monotonic()
    wishes = Wishes(solver=_Endless(), each_s=9.0, within_s=2.0)
    why = wishes.why_none(lames(), NAMES, go_on, said.append, known=known)
    assert list(why.rows()) == [1]
    assert monotonic() - began < 8
    assert said[1:] == [
        "Trying what would free it, 1 of 3: what if not “it is”? …",
        "Trying what would free it, 2 of 3: what if not “it is”? …",
    ]
    assert why.tried.words() == (
        "The time is over: 2 more things that might free it were not tried."
    )


def hanging(*_, on_try):
    mend = SimpleNamespace(claim=None)
    on_try(mend, 0, 3)
    yield 1
    on_try(mend, 1, 3)
    Event().wait(20)


def test_tomorrow_is_laid_anew_around_what_dries_tonight():
    bench = racks(capacity=2)
    plan = first_plan(bench)
    shown = ShownPlan(plan=plan, origin_at=bench.origin_at)
    now_min = 9 * HOUR
    lies = {p.id: p for p in plan.placed}

    def as_it_stands(activity):
        placed = lies[activity.id]
        if placed.start_min >= now_min:
            return activity
        end = placed.end_min + (15 * HOUR if activity.id == "dry0" else 0)
        return replace(
            activity,
            fixed_start_min=placed.start_min - now_min,
            fixed_end_min=end - now_min,
            fixed_who=placed.who,
        )

    now = replace(
        bench,
        origin_at=bench.origin_at + timedelta(minutes=now_min),
        horizon_min=bench.horizon_min - now_min,
        activities=tuple(as_it_stands(a) for a in bench.activities),
        workers=tuple(
            replace(
                w,
                windows=tuple(
                    (max(0, a - now_min), b - now_min) for a, b in w.windows if b > now_min
                ),
            )
            for w in bench.workers
        ),
        jobs=tuple(replace(j, due_min=j.due_min - now_min) for j in bench.jobs),
    )
    found = SERIAL.tonight(now, shown, Naming(), go_on)
    assert violations(now, found.plan) == ()
    assert found.words.startswith("Drying now: ")
    assert "“dry0” of Piece 0 until Tuesday 09:20" in found.words
    assert "Moved: " in found.words
    assert "stay where they were" in found.words
