"""The lines of a dry fit, and what is asked where something was found, without a window."""

from dataclasses import replace

import pytest
from desktop.fake_dry_fit import fit_plan_of

from armorplan.app.fit_findings import found_words
from armorplan.app.fit_looks import LookKind
from armorplan.app.rows import BenchState, Grouping
from armorplan.desktop.dry_fit_lines import (
    LineKind,
    first_line,
    lines_of,
    next_line,
    pin_words,
    with_last_fits,
)
from armorplan.desktop.dry_fit_talk import DryFitTalk, places_of


@pytest.fixture
def fit(session):
    return fit_plan_of(session.steps).fits[0]


def test_lay_out_comes_before_pins_pins_before_looks_and_the_sign_off_last(fit):
    lines = lines_of(fit, ())
    kinds = [line.kind for line in lines]
    assert kinds.index(LineKind.PART) < kinds.index(LineKind.PIN) < kinds.index(LineKind.LOOK)
    assert kinds[-2:] == [LineKind.SIGN_OFF, LineKind.WAIVE]
    said = [line.text for line in lines if line.kind is LineKind.SAID]
    assert said[0] == "5 pins that fit are owned; all of it at once takes 8."
    heads = [line.text for line in lines if line.kind is LineKind.HEAD]
    assert heads[1:4] == ["The lames flow down the arm.", "Round 1 of 2: 4 pins", "Look at it"]
    assert len({line.key for line in lines}) == len(lines)


def test_pins_say_size_hole_and_what_is_special_about_them(fit):
    first, _, third, last = fit.rounds[0].pins
    assert pin_words(first) == "1. lower row, hole 1 of 4: Bolt M3 × 12, into 3.5 mm"
    assert pin_words(third).endswith("▲ a hand hardly gets there")
    assert pin_words(last).endswith("(may be left out)")
    clips = [line.text for line in lines_of(fit, ()) if "clip" in line.key]
    assert clips == ["the strap: a clip or a tie, there is no pin left"]


def test_looks_left_are_counted_at_the_sign_off(fit):
    def sign_off(*ticked):
        return next(x.text for x in lines_of(fit, ticked) if x.kind is LineKind.SIGN_OFF)

    assert sign_off().endswith("– 3 looks not ticked")
    assert sign_off("look:gap:lower", "look:mark").endswith("– 1 look not ticked")
    assert sign_off("look:gap:lower", "look:mark", "look:gap:upper").endswith("may begin")


def test_of_what_cannot_be_measured_no_distance_is_asked(fit, session):
    look = fit.rounds[0].looks[0]
    talk = DryFitTalk(look, places_of(look, dict(fit.seams), ()))
    assert talk.take("turned").about == "lower_row"
    assert talk.back()
    assert talk.screen().heading == "What was found?"
    assert not talk.back()


def test_whether_it_is_fastened_alone_is_asked_where_that_is_looked_at(fit):
    look = replace(fit.rounds[0].looks[0], kind=LookKind.FASTEN, about=(), seams=())
    talk = DryFitTalk(look, ())
    assert talk.screen().choices[0].text == "The wearer cannot fasten it alone"
    found = talk.take("not-alone")
    assert found_words(found) == "the wearer cannot fasten it alone"
    other = DryFitTalk(replace(look, kind=LookKind.GAP), ())
    assert "not-alone" not in {choice.key for choice in other.screen().choices}


def test_a_single_hole_of_a_row_can_be_named(fit, session):
    look = fit.rounds[0].looks[0]
    rivets = [s for s in session.steps if s.joints and "/lower_" in s.id][:4]
    rows = [row for row in session.checklist(Grouping.PIECE) if row.id in {s.id for s in rivets}]
    tray = replace(rows[0], id="tray:x/seam:lower_row:1", steps=tuple(s.id for s in rivets))
    places = places_of(look, dict(fit.seams), (tray, *rows))
    assert [one.key for one in places] == ["lower_row", *(s.joints[0] for s in rivets)]
    assert places[1].text == rivets[0].title


def test_what_is_about_nothing_that_has_a_name_is_found_at_the_whole(fit):
    talk = DryFitTalk(fit.rounds[1].looks[1], ())
    assert talk.take("pinches").about == "whole"


def test_the_last_fit_on_the_wearer_can_be_waived_too(fit, session):
    rows = session.checklist(Grouping.PIECE)
    row = next(row for row in rows if row.id == fit.step)
    worn = replace(row, kind="fit", title="Fit it on the wearer", detail="All bends free.")
    over = replace(worn, state=BenchState.DONE)
    plan = with_last_fits(fit_plan_of(session.steps), (*rows, worn, over))
    last = plan.fits[-1]
    assert len(plan.fits) == len(fit_plan_of(session.steps).fits) + 1
    lines = lines_of(last, ())
    assert [line.text for line in lines[:1]] == ["All bends free."]
    assert [line.kind for line in lines[-2:]] == [LineKind.SIGN_OFF, LineKind.WAIVE]
    assert lines[-2].text == "Sign off the fit on the wearer"


def test_the_next_line_passes_over_heads_and_goes_round(fit):
    lines = lines_of(fit, ())
    assert lines[next_line(lines, -1, 1)].kind is LineKind.PINS
    assert lines[next_line(lines, len(lines) - 1, 1)].kind is LineKind.PINS
    assert lines[first_line(lines)].kind is LineKind.PART
    assert next_line((), 3, 1) == 3


def test_a_sign_off_before_its_time_says_what_it_waits_for(fit):
    said = {
        waits: next(x.text for x in lines_of(fit, (), (), waits) if x.kind is LineKind.SIGN_OFF)
        for waits in ("", "Cut left petal")
    }
    assert said["Cut left petal"] == f"{said['']} – too early, it waits for: Cut left petal"
