"""What passed while no window looked: told once at the next look, the oldest first."""

from app.timer_scene import CUFF, OPENS_MIN, rings

from armorplan.steps.model import StepKind


def missed(window):
    return [(bell.kind.value, bell.meaning) for bell in window.timing.missed()]


def test_what_passed_while_closed_is_told_at_start_the_oldest_first(shop):
    window = shop.window()
    window.do(StepKind.CASE)
    window.timing.set_timer(300, "soup")
    window.close()
    shop.clock.advance(20 * 3600)
    window = shop.window()
    assert missed(window) == [
        (
            "late",
            (
                "Plate: too dry to shape since 10:30 on Monday. Case it again, and wait for its "
                "colour to come back."
            ),
        ),
        ("due", "The time you set was up at 14:00 on Monday."),
    ]
    assert window.timing.told_missed() == ""
    assert missed(window) == []
    window.close()
    # Told once, it still rings until somebody answers it.
    again = shop.window()
    assert missed(again) == []
    assert sorted(rings(again)) == [("late", ""), ("late", "form")]


def test_a_drying_that_ended_at_night_says_since_when_and_what_to_do(shop):
    window = shop.window(CUFF)
    window.do(StepKind.FINISH)
    window.begin(StepKind.WATCH)
    window.close()
    shop.clock.advance(18 * 3600)
    found = [
        (bell.step.split("/")[3], bell.kind.value, bell.meaning)
        for bell in shop.window(CUFF).timing.missed()
    ]
    kinds = [(step, kind) for step, kind, _ in found]
    assert kinds == [("drip", "due"), ("watch", "late"), ("dry", "due")]
    assert found[1][2].startswith(
        "3 turns were missed, from 09:05 on Monday to 09:15 on Monday: it may have streaked. Look "
        "at it now. The watch was over at 09:20 on Monday"
    )
    assert found[2][2].startswith("Most likely dry to the touch since")
    assert found[2][2].endswith("Go on with 'Dip in lacquer, coat 2 of 2: Cuff'.")


def test_what_rang_in_an_open_window_was_not_missed(shop):
    window = shop.window()
    window.timing.set_timer(5, "tea")
    window.run(6)
    assert missed(window) == []
    window.close()
    again = shop.window()
    assert missed(again) == []
    assert rings(again) == [("due", "")]


def test_what_passed_while_the_machine_slept_was_missed(shop):
    window = shop.window()
    window.timing.set_timer(5, "tea")
    window.run(1)
    assert window.tick(3 * 3600)
    assert missed(window) == [("due", "The time you set was up at 09:05.")]
    window.timing.hush(window.timing.rows[0].id)
    assert missed(window) == []


def test_what_was_answered_while_closed_by_another_window_was_not_missed(shop):
    one, two = shop.window(), shop.window()
    one.do(StepKind.CASE)
    one.close()
    shop.clock.advance(60 * OPENS_MIN)
    two.session.read_along()
    two.begin(StepKind.FORM)
    two.close()
    assert missed(shop.window()) == []
