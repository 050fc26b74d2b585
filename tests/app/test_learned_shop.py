"""What a workshop learns from the entries of all its builds."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from clocks import FakeClock
from store.shelf_of_builds import ELBOW

from armorplan.app.learned_shop import (
    ALL,
    forget,
    fresh_since,
    learned_from,
    learned_shop,
    remember,
    shop_today,
)
from armorplan.app.lessons import Lessons, SeenLook, lessons_by_build
from armorplan.drying.learned import Look
from armorplan.ledger import acting
from armorplan.ledger.acting import press_now
from armorplan.ledger.events import Event
from armorplan.ledger.hands import Reckoned, Worked, reckoned_text
from armorplan.ledger.looks import LookTaken
from armorplan.ledger.state import derive
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shop import one_maker

MINUTE_S = 60
SHELF = sketch_shelf()
DYE = "water_dye"


class Bench:
    """One maker who works at builds of a workshop file."""

    def __init__(self, path, clock):
        self.clock = clock
        self.file = WorkshopFile.open(path, clock)
        self._presses = 0

    def build(self, name, events=()):
        record = replace(ELBOW, id=name, name=name, created_at=self.clock.now())
        self.file.add_build(record, events)

    def press(self, build, entries_of, who=""):
        self._presses += 1
        press = press_now(build, f"press-{self._presses}", self.clock, who=who)
        self.file.append(entries_of(derive(self.file.events(build)), press))

    def start(self, build, *steps):
        ids = tuple(f"{build}/{step}" for step in steps)
        self.press(build, lambda state, press: acting.start(state, ids, press))

    def look(self, build, step, factor, *, dry, told_by_h=0, is_named=True, **changes):
        """Look at a drying, whose start the wall clock tells by so many hours later."""
        step_id = f"{build}/{step}"
        began = derive(self.file.events(build)).record(step_id).counted[0].start
        seen = LookTaken(
            treatment=DYE,
            stage="dry to handle",
            dry=dry,
            begun_at=(began.at + timedelta(hours=told_by_h)).isoformat(),
            run=began.run if is_named else "",
            dose_min=1000 * factor,
            reference_min=1000.0,
        )
        seen = replace(seen, **changes)
        self.press(build, lambda state, press: acting.look(state, step_id, seen, press))

    def undo(self, build):
        self.press(build, acting.undo)

    def tick(self, build, step, minutes, *, kind="rivet", who=""):
        """Tick a step that was begun, with the minutes reckoned for it."""
        step_id = f"{build}/{step}"
        told = {step_id: reckoned_text(Reckoned(kind=kind, minutes=minutes))}
        self.press(
            build, lambda state, press: acting.done(state, (step_id,), press, told=told), who
        )

    def rivet(self, build, step, took, *, who=""):
        self.start(build, step)
        self.clock.advance(took * MINUTE_S)
        self.tick(build, step, 2.0, who=who)

    def learned(self):
        return learned_shop(self.file, SHELF)


@pytest.fixture
def bench(tmp_path):
    opened = Bench(tmp_path / "workshop.armorplan", FakeClock())
    opened.build("cuff-1")
    yield opened
    opened.file.close()


def dry_five_times(bench, build="cuff-1", factor=0.6):
    for at in range(5):
        bench.start(build, f"dry/{build}-{at}")
        bench.clock.advance(600 * MINUTE_S)
        bench.look(build, f"dry/{build}-{at}", factor, dry=True)


def test_five_dry_taps_make_the_shop_dry_faster(bench):
    dry_five_times(bench)
    shop = shop_today(one_maker(), bench.file, SHELF)
    pace = shop.room.pace(DYE)
    assert pace is not None
    assert 0.45 < pace.factor < 0.7
    assert pace.observations == 5
    assert shop.room.pace("oil") is None


def test_an_undone_look_teaches_nothing(bench):
    bench.start("cuff-1", "dry/a")
    bench.clock.advance(600 * MINUTE_S)
    bench.look("cuff-1", "dry/a", 0.6, dry=True)
    bench.undo("cuff-1")
    assert bench.learned().dryings == ()


def test_pieces_of_one_bath_are_one_drying_though_the_clock_was_set_between_the_looks(bench):
    bench.start("cuff-1", "dry/a", "dry/b")
    bench.clock.advance(600 * MINUTE_S)
    for step, set_by_h in (("dry/a", 0), ("dry/b", 1), ("dry/a", -3)):
        bench.clock.set_back(-3600 * set_by_h)
        bench.look("cuff-1", step, 0.6, dry=False, told_by_h=set_by_h)
    found = bench.learned().drying(DYE)
    assert found.observations == 1
    looks = lessons_by_build(bench.file.all_events())["cuff-1"].looks
    assert len({seen.look.run for seen in looks}) == 2


def test_a_coats_last_drying_and_its_cure_and_pieces_of_other_thickness_are_one_drying(bench):
    bench.start("cuff-1", "dry/a", "dry/b", "cure/a")
    bench.clock.advance(600 * MINUTE_S)
    bench.look("cuff-1", "dry/a", 0.6, dry=False, thickness_mm=2.0)
    bench.look("cuff-1", "dry/b", 0.6, dry=False, thickness_mm=4.0)
    bench.look("cuff-1", "cure/a", 0.5, dry=False, stage="cured")
    # The same drying, looked at for another stage, says nothing of the first one.
    bench.look("cuff-1", "dry/a", 0.9, dry=True, thickness_mm=2.0, stage="dry to the touch")
    assert bench.learned().drying(DYE).observations == 1
    looks = lessons_by_build(bench.file.all_events())["cuff-1"].looks
    assert len({seen.look.run for seen in looks}) == 4


def test_what_an_older_program_kept_goes_by_when_it_began(bench):
    for step in ("dry/a", "dry/b"):
        bench.start("cuff-1", step)
        bench.clock.advance(600 * MINUTE_S)
        bench.look("cuff-1", step, 0.6, dry=True, is_named=False)
    assert bench.learned().drying(DYE).observations == 2


def test_all_builds_teach(bench):
    dry_five_times(bench)
    one = bench.learned().drying(DYE)
    bench.build("collar-1")
    bench.start("collar-1", "dry/collar-1-0")
    bench.look("collar-1", "dry/collar-1-0", 0.5, dry=False)
    dry_five_times(bench, "collar-1")
    both = bench.learned().drying(DYE)
    assert (one.observations, both.observations) == (5, 10)
    assert both.spread < one.spread


def test_what_a_build_took_over_counts_once_and_is_taken_back_there(bench):
    dry_five_times(bench)
    carried = tuple(
        replace(event, build="cuff-2", step=event.step.replace("cuff-1/", "cuff-2/"), seq=0)
        for event in bench.file.events("cuff-1")
    )
    bench.build("cuff-2", carried)
    assert bench.learned().drying(DYE).observations == 5
    bench.undo("cuff-2")
    assert bench.learned().drying(DYE).observations == 4
    assert lessons_by_build(bench.file.all_events())["cuff-1"].looks == ()


def test_what_is_forgotten_counts_no_more_until_that_is_taken_back(bench):
    dry_five_times(bench)
    bench.rivet("cuff-1", "rivet/a", 1.0)
    before = bench.learned()
    bench.clock.advance(1)
    forget(bench.file, DYE)
    assert bench.learned().dryings == ()
    assert bench.learned().hands == before.hands
    bench.clock.advance(1)
    remember(bench.file, DYE)
    assert bench.learned() == before
    bench.clock.advance(1)
    forget(bench.file, ALL)
    assert bench.learned().hands == ()
    bench.clock.advance(1)
    bench.rivet("cuff-1", "rivet/b", 1.0)
    assert [each.observations for each in bench.learned().hands] == [1]


def test_a_later_fresh_start_of_all_stands_beside_one_that_was_taken_back():
    at = datetime(2027, 3, 1, tzinfo=UTC)
    day = timedelta(days=1)
    latest = {DYE: at, f"back:{DYE}": at + day}
    assert fresh_since(latest, DYE) is None
    assert fresh_since({**latest, ALL: at}, DYE) == at
    assert fresh_since({**latest, DYE: at + 2 * day}, DYE) == at + 2 * day


def test_a_hand_that_is_quicker_than_the_catalogue_is_learned_of_each_and_of_all(bench):
    for at in range(8):
        bench.rivet("cuff-1", f"rivet/{at}", 1.2, who="Maud" if at % 2 else "Nils")
    hands = {each.who: each for each in bench.learned().hands}
    assert set(hands) == {"", "Maud", "Nils"}
    assert 0.58 < hands[""].factor < 0.66
    assert (hands[""].observations, hands["Maud"].observations) == (8, 4)
    assert hands["Maud"].factor > hands[""].factor, "fewer runs, so nearer to the catalogue"
    shop = shop_today(one_maker(), bench.file, SHELF)
    assert [(pace.kind, pace.factor) for pace in shop.hands] == [("rivet", hands[""].factor)]


def test_a_timer_left_running_overnight_is_named_and_moves_little(bench):
    for at in range(8):
        bench.rivet("cuff-1", f"rivet/{at}", 1.6)
    (before,) = bench.learned().hands
    bench.rivet("cuff-1", "rivet/overnight", 15 * 60)
    (after,) = bench.learned().hands
    assert after.factor == pytest.approx(before.factor, rel=0.02)
    (damped,) = after.damped
    assert damped.id.startswith("cuff-1/rivet/overnight@")
    assert damped.share < 0.01


def test_of_very_many_the_latest_count():
    at = datetime(2027, 3, 1, tzinfo=UTC)
    work = tuple(
        Worked(
            id=f"s/{day:04}@{at.isoformat()}",
            kind="rivet",
            who="",
            factor=3.0 if day < 400 else 0.8,
            share=1.0,
            done_at=at + timedelta(days=day),
        )
        for day in range(800)
    )
    looks = tuple(
        SeenLook(
            at=at + timedelta(days=day),
            look=Look(
                treatment=DYE,
                run=f"s/{day:04}@{at.isoformat()}",
                bath=str(day),
                dose_min=factor * 1000.0,
                reference_min=1000.0,
                dry=dry,
            ),
        )
        for day in range(800)
        for factor, dry in (
            ((2.0, False), (2.2, True)) if day < 400 else ((0.7, False), (0.9, True))
        )
    )
    found = learned_from(Lessons(looks=looks, work=work), {}, 2.0)
    (hands,), (drying,) = found.hands, found.dryings
    assert hands.factor == pytest.approx(0.8, rel=0.01)
    assert drying.factor == pytest.approx(0.8, rel=0.03)
    assert (hands.observations, drying.observations) == (300, 300)


def test_entries_of_an_older_program_teach_nothing(bench):
    bench.start("cuff-1", "rivet/a")
    bench.clock.advance(MINUTE_S)
    bench.press("cuff-1", lambda state, press: acting.done(state, ("cuff-1/rivet/a",), press))
    assert bench.learned() == type(bench.learned())()
    assert isinstance(bench.file.all_events()[0], Event)
