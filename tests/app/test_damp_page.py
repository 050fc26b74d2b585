"""What was found still damp: the page of its drying, its timer, the plan and the desk say the same instant."""

from datetime import timedelta

import pytest
from app.timer_scene import CUFF

from armorplan.app.drying_rows import drying_page
from armorplan.steps.model import StepKind


@pytest.fixture
def window(shop):
    """A cuff that was dipped and whose first coat dries."""
    made = shop.window(CUFF)
    wet_until(made, made.one(StepKind.DRY))
    yield made
    made.close()


def wet_until(window, drying):
    """Do what comes, in order, until this drying has begun."""
    for step_id in window.derived.order:
        if window.session.drying.may_look(drying):
            return
        window.tick(60)
        if window.derived.work.step(step_id).attended:
            window.session.done((step_id,))


def page_now(window, step=None):
    dryings = window.session.dryings()
    return drying_page(dryings.of(step or window.one(StepKind.DRY)), dryings.room)


def bar(page, key):
    return next(bar for bar in page.bars if bar.key == key)


def timer(window, step=None):
    wanted = step or window.one(StepKind.DRY)
    return next(row for row in window.timing.rows if row.step == wanted)


def chart_end(window):
    bars = window.session.chart().bars
    return next(bar.end_at for bar in bars if bar.step == window.one(StepKind.DRY))


def test_page_timer_plan_and_desk_say_the_same_instant_after_a_look(window):
    before = page_now(window)
    assert bar(before, "touch").opens.likely_at == timer(window).due_at == chart_end(window)
    window.tick(45 * 60)
    looked_at = window.clock.now()
    said = window.session.drying.look(window.one(StepKind.DRY), dry=False)
    page = page_now(window)
    touch = bar(page, "touch").opens
    assert touch.likely_at == timer(window).due_at == chart_end(window)
    assert touch.latest_at == timer(window).surely_at
    assert page.choice.end_at == touch.likely_at
    assert f"It goes on until about {touch.likely_at:%a} {touch.likely_at.day}" in said
    assert f"{touch.likely_at:%H:%M}." in said
    assert looked_at < touch.soonest_at <= touch.likely_at <= touch.latest_at
    assert f"Found still damp {looked_at:%a}" in page.why


def test_later_stages_are_put_off_too_and_latest_times_are_not(window):
    window.tick(45 * 60)
    taught = page_now(window)
    window.session.drying.look(window.one(StepKind.DRY), dry=False)
    page = page_now(window)
    assert bar(page, "handle").opens.likely_at > bar(taught, "handle").opens.likely_at
    assert bar(page, "handle").opens.likely_at >= bar(page, "touch").opens.likely_at
    recoat = bar(page, "recoat")
    from_start = drying_page(
        window.session.dryings().of(f"treatment:{page.choice.entry.id}"), page.room
    )
    lasts = bar(from_start, "recoat").closes.likely_at - from_start.choice.start_at
    assert recoat.closes.likely_at - page.choice.start_at == lasts


def test_the_curve_of_what_was_found_damp_is_short_of_dry_there_and_full_at_its_end(window):
    window.tick(45 * 60)
    looked_at = window.clock.now()
    window.session.drying.look(window.one(StepKind.DRY), dry=False)
    page = page_now(window)
    curve = page.curve
    look = curve.at.index(looked_at)
    assert curve.dry_pct_high[look] < 100
    assert curve.dry_pct_likely[look] < curve.dry_pct_high[look]
    handle_at = bar(page, "handle").opens.likely_at
    full_at = next(
        at for at, pct in zip(curve.at, curve.dry_pct_likely, strict=True) if pct == 100
    )
    assert timedelta() <= full_at - handle_at + timedelta(minutes=1) <= timedelta(minutes=16)
    assert list(curve.dry_pct_likely) == sorted(curve.dry_pct_likely)


def test_what_is_only_asked_of_knows_the_look_and_a_treatment_by_itself_does_not(window):
    window.tick(45 * 60)
    window.session.drying.look(window.one(StepKind.DRY), dry=False)
    dryings = window.session.dryings()
    assert dryings.of(window.one(StepKind.DRY)).damp is not None
    assert all(choice.damp is None for choice in dryings.treatments)


def test_a_weighing_tells_page_and_timer_the_same_end(window):
    last = window.ids(StepKind.DRY)[-1]
    wet_until(window, last)
    before_at = bar(page_now(window, last), "handle").opens.likely_at
    window.tick(20 * 60)
    # Of 20 g of bath half have gone: it is damp, and dry after some more of the like.
    window.session.drying.weigh(last, before_g=100, wet_g=120, now_g=110)
    page = page_now(window, last)
    assert page.choice.damp is not None
    assert page.choice.damp.foretold is not None
    handle = bar(page, "handle").opens
    assert handle.likely_at != before_at
    assert handle.likely_at == timer(window, last).due_at
    assert handle.latest_at == timer(window, last).surely_at
