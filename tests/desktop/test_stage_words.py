"""What is proved of a plan, in words."""

import pytest
from desktop.week_scene import week_plan

from armorplan.desktop.planning import PlanDesk
from armorplan.desktop.stage_words import proven_words
from armorplan.desktop.widgets.plan_bar import PlanBar
from armorplan.schedule.problem import Stage, Status
from armorplan.schedule.stages import CHANGES, FINISH, FITS, JUMPS, LATENESS


def stage(name, value, bound, status=Status.GOOD):
    return Stage(name=name, value=value, bound=bound, status=status)


@pytest.mark.parametrize(
    ("stages", "words"),
    [
        ((), ""),
        ((stage(LATENESS, 0, 0, Status.BEST),), "Proved best: lateness."),
        # After a stop nothing is called best.
        (
            (stage(JUMPS, 2, 2, Status.STOPPED),),
            "No plan has it better: jumps in the chosen order.",
        ),
        ((stage(FINISH, 500, 380),), "Not proved best: finish (at most 2 h sooner)."),
        ((stage(LATENESS, 90, 60),), "Not proved best: lateness (at most 30 min less in all)."),
        (
            (stage(LATENESS, 0, 0, Status.BEST), stage(CHANGES, 9, 6), stage(FITS, 90, 45)),
            (
                "Proved best: lateness. Not proved best: batches, colour changes and times at "
                "the bench (at most 3 fewer), dry-fits (at most 45 min sooner in all)."
            ),
        ),
    ],
)
def test_each_stage_says_what_is_proved_or_how_much_better_it_could_be(qapp, stages, words):
    assert proven_words(stages) == words


def test_the_details_of_the_plan_begin_with_what_is_proved(qtbot, bridge, session):
    session.week_plan = week_plan()
    desk = PlanDesk(bridge, lambda *_args, **_more: None)
    bar = PlanBar(bridge, desk)
    qtbot.addWidget(bar)
    bar.refresh()
    said = bar.findChild(object, "plan_details").text()
    assert said.startswith(
        "Proved best: finish. Not proved best: lateness (at most 1 h 30 min less in all)."
    )
    desk.close()
