"""What keeps builds of a shop from being planned: one finding each, with line, what and how to mend."""

from dataclasses import replace
from datetime import time

import pytest
from schedule.in_hand import (
    CAPTAIN,
    MAKER,
    MONDAY_8,
    SHELF,
    SHOP,
    after,
    cuff,
    in_hand,
    made,
)

from armorplan.kernel.findings import Place, Severity
from armorplan.rules.sketches import sketch, sketch_bath, sketch_part
from armorplan.schedule.checker import violations
from armorplan.schedule.joining import joined_problem
from armorplan.schedule.place_checks import place_findings
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Status
from armorplan.schedule.shop_checks import both, shop_findings
from armorplan.workshop.calendar import Stretch
from armorplan.workshop.hours import Opening
from armorplan.workshop.places import DipBath, Rack
from armorplan.workshop.skill_how import SkillHow

PLACES = {
    name: Place(file="shop.toml", line=line, key=name)
    for line, name in enumerate(
        ("people", "wearers", "builds", "builds.b", "baths.vat", "racks"), start=1
    )
}


def found(shop=SHOP, **more):
    builds = (in_hand("b", shop=shop, **more),)
    problem = joined_problem(builds, origin_at=MONDAY_8)
    return problem, shop_findings(builds, problem, places=PLACES)


def day_hours(start, end, *days):
    return tuple(Opening(weekday=day, start=start, end=end) for day in days or range(6))


SHORT = replace(MAKER, hours=day_hours(time(9), time(9, 6)))
SLOW = replace(
    SHELF,
    durations=tuple(
        replace(d, fixed_min=25.0) if d.kind == "form" else d for d in SHELF.durations
    ),
)


def test_a_sound_shop_has_nothing_to_tell():
    problem, findings = found()
    assert findings == ()
    assert place_findings((in_hand("b"),), places=PLACES) == ()
    assert first_plan(problem).placed


def test_nobody_can_do_a_step():
    problem, (finding,) = found(replace(SHOP, people=(replace(MAKER, cannot=("rivet",)),)))
    assert (finding.code, finding.severity) == ("nobody-can", Severity.ERROR)
    assert finding.place == PLACES["people"]
    assert 'Nobody in this shop does "rivet": 1 step cannot be planned' in finding.text
    assert 'Add "rivet"' in finding.remedy
    plan = first_plan(problem)
    assert (plan.status, plan.placed) == (Status.NONE, ())


@pytest.mark.parametrize(
    ("filed", "said", "back"),
    [
        ({}, SkillHow.NOT_YET, True),
        ({}, SkillHow.BESIDE, True),
        ({"cannot": ("rivet",)}, SkillHow.BESIDE, False),
    ],
)
def test_a_kind_signed_off_to_nobody_sends_nobody_to_the_shop_file(filed, said, back):
    maker = replace(MAKER, signed_off=(("rivet", said),), **filed)
    _, (finding,) = found(replace(SHOP, people=(maker,)))
    assert finding.code == "nobody-can"
    assert finding.place is None
    assert 'have "rivet" signed off for somebody as done alone (Practice, Signed off)' in (
        finding.remedy
    )
    assert ("take back what was said of Maker" in finding.remedy) == back
    # What it names does help: the word taken back, or another one.
    for words in ((("rivet", SkillHow.ALONE),), *([()] if back else [])):
        again = replace(SHOP, people=(replace(maker, signed_off=words),))
        assert found(again)[1] == ()


def test_a_step_longer_than_any_opening():
    problem, (finding,) = found(replace(SHOP, people=(SHORT,), wearers=()), shelf=SLOW)
    assert finding.code == "no-opening-long-enough"
    form = next(a for a in problem.activities if "/form/" in a.id)
    assert finding.text == (
        f"'{form.title}' takes 25 min in one go, and the longest opening of Maker has 6 min. "
        "3 more steps are too long for it."
    )
    assert finding.about[0] == form.id
    assert sum("/dye/" in name for name in finding.about) == 2
    assert finding.place == PLACES["people"]


def test_what_is_worked_damp_is_not_left_for_the_next_evening():
    """Told by the window it has to begin in; plain work goes on in sittings."""
    shop = replace(SHOP, people=(SHORT,), wearers=(), baths=(), racks=(), stations=())
    problem, (finding,) = found(shop, shelf=SLOW)
    assert [name.split("/")[3] for name in finding.about] == ["form"]
    assert any("#" in a.id for a in problem.activities)
    assert "takes 25 min in one go, and the longest stretch anyone works is 6 min" in (
        first_plan(problem).conflict
    )


def test_an_appointment_too_short_for_the_fit():
    captain = replace(CAPTAIN, hours=day_hours(time(14), time(14, 20)))
    slow = tuple(replace(d, fixed_min=30.0) if d.kind == "fit" else d for d in SHELF.durations)
    shelf = replace(SHELF, durations=slow)
    _, (finding,) = found(replace(SHOP, wearers=(captain,)), shelf=shelf)
    assert finding.code == "no-opening-long-enough"
    assert "the longest opening of Maker or Apprentice with Captain has 20 min" in finding.text
    assert "appointment" in finding.remedy
    assert finding.place == PLACES["wearers"]


def test_an_appointment_when_nobody_works():
    at_night = Stretch(start_at=after(hours=13), end_at=after(hours=15))
    captain = replace(CAPTAIN, hours=(), appointments=(at_night,))
    problem, findings = found(replace(SHOP, wearers=(captain,)))
    assert [f.code for f in findings] == ["no-opening-long-enough"]
    assert "has 0 min" in findings[0].text
    assert first_plan(problem).status is Status.NONE


def test_plain_work_longer_than_any_opening_goes_on_in_sittings():
    shop = replace(
        SHOP,
        people=(replace(MAKER, hours=day_hours(time(9), time(9, 30))),),
        wearers=(),
        baths=(),
        racks=(),
        stations=(),
    )
    problem, findings = found(shop)
    assert findings == ()
    plan = first_plan(problem)
    assert plan.placed
    assert violations(problem, plan) == ()


def test_a_build_that_begins_beyond_what_a_plan_sees():
    problem, findings = found(ready_at=after(days=500))
    (far,) = findings
    assert far.code == "too-far-ahead"
    assert "only in 500 days; a plan looks 400 days ahead" in far.text
    assert far.place == PLACES["builds.b"]
    assert problem.horizon_min == 400 * 1440


def test_a_build_due_before_the_plan_begins_is_late_and_planned():
    problem, (finding,) = found(due_at=after(days=-2))
    assert (finding.code, finding.severity) == ("due-before-start", Severity.WARNING)
    assert "was due on 05 December 2026" in finding.text
    plan = first_plan(problem)
    assert plan.placed
    assert plan.stages[0].name == "lateness"


def test_one_of_several_alike_is_found_where_they_are_written():
    builds = (in_hand("b-2", due_at=after(days=-2)),)
    problem = joined_problem(builds, origin_at=MONDAY_8)
    assert shop_findings(builds, problem, places=PLACES)[0].place == PLACES["builds.b"]


@pytest.mark.parametrize(
    ("shop", "code", "says", "place"),
    [
        (
            replace(SHOP, racks=(Rack(id="line", name="Line", line_mm=100.0),)),
            "rack-too-small",
            "wants 140 mm of line, and 2 more like it want too much; there are 100 mm",
            "racks",
        ),
        (
            replace(SHOP, baths=(DipBath(id="vat", name="Vat", area_dm2=9.0, takes=("dyes",)),)),
            "unknown-treatment",
            'the treatment "dyes" that vat is for',
            "baths.vat",
        ),
    ],
)
def test_places_too_small_are_told_and_planned(shop, code, says, place):
    builds = (in_hand("b", shop=shop),)
    findings = place_findings(builds, places=PLACES)
    assert {f.code for f in findings} == {code}
    assert says in findings[0].text
    assert findings[0].place == PLACES[place]
    assert first_plan(joined_problem(builds, origin_at=MONDAY_8)).placed


def test_a_bath_too_small_for_a_coat():
    parts = [f"p{n}" for n in range(8)]
    pattern = sketch(*(sketch_part(p) for p in parts), treatments=(sketch_bath("dye", *parts),))
    findings = place_findings((in_hand("b", pattern),), places=PLACES)
    finding = next(f for f in findings if f.code == "bath-too-small")
    assert finding.place == PLACES["baths.vat"]
    assert "wants 3 dm² side by side; Vat holds 2 dm²" in finding.text


def test_what_both_have_open():
    assert both(((0, 10), (20, 30)), ((5, 25), (28, 40))) == ((5, 10), (20, 25), (28, 30))
    assert both(((0, 10),), ()) == ()


def test_builds_alike_are_told_of_once():
    facts = made(cuff(), replace(SHOP, racks=(Rack(id="line", name="Line", line_mm=100.0),)))
    alike = [replace(in_hand("x"), id=name, **facts) for name in ("a", "b", "c")]
    (finding,) = place_findings(alike)
    assert len(finding.about) == 3  # The cleaning and two coats, not of each build.
