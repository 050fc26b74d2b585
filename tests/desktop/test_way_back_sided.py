"""On parts made left and right every place that the window offers is found, and ways back with it."""

import pytest
from clocks import FakeClock

from armorplan.app.opening import open_build
from armorplan.app.rows import Selection
from armorplan.app.session import Session
from armorplan.app.ways_back import recovery_scene
from armorplan.desktop.way_back_places import places_of
from armorplan.desktop.way_back_talk import WayBackTalk
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.orders.recovery.amiss import amiss_of
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shop import one_maker


@pytest.fixture(scope="module")
def session(tmp_path_factory):
    clock = FakeClock()
    workshop = WorkshopFile.open(tmp_path_factory.mktemp("sided") / "w.sqlite", clock)
    folder = samples_folder() / "three_lames"
    opened = open_build(folder, workshop, read_shelf(), one_maker("UTC"), clock=clock)
    numbers = iter(range(1000))
    yield Session(opened.build, opened.derived, workshop, clock, lambda: f"p-{next(numbers)}")
    workshop.close()


def test_every_place_that_is_offered_is_found_in_the_build(session):
    scene = recovery_scene(session.derived)
    offered = places_of(session, Selection())
    assert set(offered) == set(MistakeKind)
    for kind, choices in offered.items():
        assert choices
        for choice in choices if kind is not MistakeKind.CLOSED else ():
            (amiss,) = amiss_of(scene, (Mistake(kind=kind, about=choice.about),))
            assert amiss.parts, choice
    holes = [choice.about for choice in offered[MistakeKind.WRONG_HOLE]]
    parts = session.derived.assembly.parts
    assert len(set(holes)) == len(holes) == sum(len(part.part.holes) for part in parts)


@pytest.mark.parametrize(
    ("kind", "hows"),
    [
        (MistakeKind.CLOSED, ("all",)),
        (MistakeKind.WRONG_HOLE, ("2", "edge")),
        (MistakeKind.TWO_ALIKE, ()),
        (MistakeKind.WRONG_COLOUR, ("lighter",)),
        (MistakeKind.ROW_OFF, ("3", "in")),
        (MistakeKind.SPOILT, ("face", "5")),
    ],
)
def test_each_kind_is_told_by_the_window_s_own_questions_and_has_ways_back(session, kind, hows):
    talk = WayBackTalk(places_of(session, Selection()))
    talk.take(kind.slug)
    *between, last = (talk.screen().choices[-1].key, *hows)
    assert [talk.take(key) for key in between] == [None] * len(between)
    mistake = talk.take(last)
    said = session.way_back.tell(mistake)
    found = session.way_back.asking()()
    session.undo()
    assert said.startswith("Noted")
    if kind is MistakeKind.CLOSED:
        # All leather of it was cut, ticked or not.
        assert not any(one.title.startswith("Cut") for one in session.way_back.stuck())
        return
    assert found.mistakes
    assert found.ways
    means = {way.means for way in found.ways}
    assert {"live with it", "cut anew"} <= means


def test_no_step_comes_too_late_whose_work_surely_was_done(session):
    closed = places_of(session, Selection())[MistakeKind.CLOSED][0]
    session.way_back.tell(Mistake(kind=MistakeKind.CLOSED, about=closed.about))
    told = [one.why for one in session.way_back.stuck()]
    session.undo()
    assert told
    assert not any("has to be cut first" in why for why in told)
