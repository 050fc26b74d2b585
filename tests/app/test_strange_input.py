"""What does not fit the build (ids of another one, a plan of another form) stops nothing."""

import json

import pytest

from armorplan.app.rows import BenchState, Selection
from armorplan.app.shown_plan import plan_from
from armorplan.steps.model import StepKind


@pytest.mark.parametrize("key", ["start", "pause", "done"])
def test_a_press_on_an_unknown_step_records_nothing(bench, key):
    assert getattr(bench.session, key)(("nobody",)) == "Choose a step first."
    assert bench.session.note("nobody", "lost") == "Choose a step first."
    assert not bench.workshop.events(bench.session.build.id)


def test_the_known_steps_among_unknown_ones_are_pressed(bench):
    (measure,) = bench.ids(StepKind.MEASURE)
    bench.session.done(("nobody", measure))
    assert bench.state(measure) is BenchState.DONE
    assert len(bench.workshop.events(bench.session.build.id)) == 1


def test_what_is_unknown_lights_nothing_and_has_no_reason(bench):
    assert bench.session.choose_joint("nothing") == Selection()
    assert bench.session.choose_part("nothing") == Selection()
    assert bench.session.choose_steps(("nothing",)) == Selection()
    with pytest.raises(KeyError, match="has no step 'nothing'"):
        bench.session.why("nothing")


@pytest.mark.parametrize(
    "text",
    ["", "{", "null", "[]", "3", '{"plan": 1}', '{"plan": {"placed": [{}]}, "origin_at": "x"}'],
)
def test_a_plan_of_another_form_is_no_plan(bench, text):
    bench.plan()
    bench.workshop.save_plan(bench.session.build.id, text)
    session = bench.reopened()
    assert session.plan_face().sentence == ""
    assert session.chart().bars == ()


def test_a_plan_without_a_zone_is_no_plan(bench):
    bench.plan()
    kept = json.loads(bench.workshop.last_plan(bench.session.build.id))
    assert plan_from(json.dumps(kept)) is not None
    kept["origin_at"] = "2027-03-01T09:00:00"
    assert plan_from(json.dumps(kept)) is None
