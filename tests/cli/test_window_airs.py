"""The shop's air kept from the window: the same build goes on in it, and a shop file rules over it."""

from dataclasses import replace
from datetime import timedelta
from itertools import count

import pytest
from clocks import FakeClock

from armorplan.app.opening import open_build, resume_build
from armorplan.app.past_air import PAST
from armorplan.app.rows import BenchState, Grouping
from armorplan.app.session import Session
from armorplan.app.shop_air import AirRule, DayNight, air_words
from armorplan.cli.airs import Airs
from armorplan.cli.program import run
from armorplan.cli.shop_now import ShopNow
from armorplan.drying.room import drying_room
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import WorkshopError
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.steps.model import StepKind
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.air import Climate, Pace, Room
from armorplan.workshop.learned_hands import HandPace
from armorplan.workshop.shop import one_maker

COLD_NIGHTS = Room(
    usual=Climate(temperature_c=18, humidity_pct=55),
    by_hour=DayNight(
        day=Climate(temperature_c=18, humidity_pct=55),
        night=Climate(temperature_c=10, humidity_pct=55),
    ).hours(),
    volume_m3=38.0,
)


class Bench:
    def __init__(self, tmp_path, *, is_told=False):
        self.clock = FakeClock()
        path = tmp_path / "w.sqlite"
        self.workshop = WorkshopFile.open(path, self.clock)
        self.numbers = count(1)
        self.shop = ShopNow(
            told=one_maker("Europe/Lisbon"),
            is_told=is_told,
            workshop_path=path,
            shelf=read_shelf,
            clock=self.clock,
        )
        self.airs = Airs(shop=self.shop)
        folder = samples_folder() / "elbow_cop"
        opened = open_build(folder, self.workshop, read_shelf(), self.shop(), clock=self.clock)
        self.session = self.seat(opened)

    def seat(self, opened):
        new_id = lambda: f"press-{next(self.numbers)}"  # noqa: E731
        return Session(opened.build, opened.derived, self.workshop, self.clock, new_id)


@pytest.fixture
def bench(tmp_path):
    made = Bench(tmp_path)
    yield made
    made.workshop.close()


def dry_minutes(derived):
    return {s.id: s.minutes for s in derived.work.of_kind(StepKind.DRY) if s.drying}


def test_the_same_build_goes_on_in_the_air_that_is_kept(bench):
    session, done = bench.session, bench.session.derived.order[:4]
    former, shown = session.derived, []
    session.done(done)
    session.start((former.order[4],))
    session.subscribe(lambda: shown.append(session.derived.shop.room))
    said = bench.airs.keep(COLD_NIGHTS)()
    settle = bench.airs.go_on(session)()
    assert session.derived is former
    settle()
    assert said.startswith("Kept as the air of the shop: From 08:00 18 °C")
    assert session.derived.shop.room == replace(COLD_NIGHTS, zone="Europe/Lisbon")
    assert shown[-1] == session.derived.shop.room
    before, after = dry_minutes(former), dry_minutes(session.derived)
    assert before.keys() == after.keys()
    assert all(after[step] >= minutes for step, minutes in before.items())
    assert sum(after.values()) > 1.3 * sum(before.values())
    assert session.derived.order == former.order
    assert session.done_order == done
    states = {row.id: row.state for row in session.checklist(Grouping.PIECE)}
    assert states[former.order[4]] is BenchState.RUNNING
    assert len(bench.workshop.builds()) == 1


def test_a_build_in_other_air_is_told_as_if_it_were_opened_in_it(bench):
    bench.airs.keep(COLD_NIGHTS)()
    told = Finding(
        code="told-of-its-files", severity=Severity.NOTE, text="Of its files.", remedy=""
    )
    bench.session._learned.derived = replace(
        bench.session.derived, findings=(*bench.session.derived.findings, told)
    )
    bench.airs.go_on(bench.session)()()
    opened = resume_build(bench.session.build, bench.shop()).derived
    here = bench.session.derived
    assert (here.work, here.relations, here.waits) == (opened.work, opened.relations, opened.waits)
    assert "cold-nights" in {finding.code for finding in here.findings}
    assert {f.code for f in here.findings} == {*(f.code for f in opened.findings), told.code}


def test_hands_stay_those_that_the_build_was_opened_with(bench):
    hands = (HandPace(kind="set rivet", factor=2.0, spread=0.1, observations=9),)
    derived = bench.session.derived
    bench.session._learned.derived = replace(derived, shop=replace(derived.shop, hands=hands))
    bench.airs.keep(COLD_NIGHTS)()
    bench.airs.go_on(bench.session)()()
    assert bench.session.derived.shop.hands == hands


def test_air_that_another_window_keeps_is_noticed_and_this_windows_own_is_not(bench):
    session, airs = bench.session, bench.airs
    session.read_along()
    airs.keep(COLD_NIGHTS)()
    airs.go_on(session)()()
    session.read_along()
    assert not airs.is_behind(session)
    airs.keep(Room())()
    session.read_along()
    assert airs.is_behind(session)
    airs.go_on(session)()()
    session.read_along()
    assert not airs.is_behind(session)
    assert session.derived.shop.room.usual == Climate()


def test_what_is_kept_is_there_when_the_workshop_is_opened_again(bench):
    bench.airs.keep(COLD_NIGHTS)()
    again = replace(bench.shop, told=one_maker("UTC"))
    assert again.air().rule is AirRule.KEPT
    assert again().room == replace(COLD_NIGHTS, zone="UTC")


def test_air_counts_from_when_it_was_kept_and_what_dried_before_did_so_in_that_of_then(bench):
    bench.airs.keep(COLD_NIGHTS)()
    bench.clock.advance(5 * 3600)
    at = bench.clock.now()
    bench.airs.keep(Room())()
    room = drying_room(bench.shop().room)
    assert room.air(at + timedelta(minutes=1)) == Climate()
    assert room.air(at - timedelta(minutes=20)).temperature_c == 18
    night_at = at.replace(hour=3)
    assert room.air(night_at).temperature_c == 10
    assert room.air(night_at + timedelta(days=1)) == Climate()


def test_a_fan_put_on_counts_from_now_also_where_nobody_had_told_the_air(bench):
    fan = Room(usual=Climate(air_m_s=1.5))
    bench.airs.keep(fan, Room())()
    at = bench.clock.now()
    room = drying_room(bench.shop().room)
    assert room.air(at - timedelta(hours=2)).air_m_s == 0.1
    assert room.air(at + timedelta(hours=2)).air_m_s == 1.5
    assert bench.airs.air()().told.by_hour == ()


def test_a_shop_file_rules_over_what_is_kept_and_it_is_said(tmp_path):
    bench = Bench(tmp_path, is_told=True)
    said = bench.airs.keep(COLD_NIGHTS)()
    assert said.endswith("The shop file rules over it: the plan goes by that.")
    assert bench.shop().room.by_hour == ()
    assert bench.airs.air()().rule is AirRule.SHOP_FILE
    assert bench.airs.air()().kept == replace(COLD_NIGHTS, zone="Europe/Lisbon")
    bench.workshop.close()


def test_air_that_cannot_be_read_is_told_and_stops_nothing(bench):
    bench.workshop.air.keep('{"usual": "warm"}')
    with pytest.raises(WorkshopError, match="Keep the air anew"):
        bench.airs.air()()
    assert bench.shop() == bench.shop.told


def test_air_kept_anew_mends_what_cannot_be_read_and_that_is_said(bench):
    bench.workshop.air.keep('{"usual": {"new": 1}}')
    bench.airs.keep(COLD_NIGHTS)()
    air = bench.airs.air()()
    assert air.told == replace(COLD_NIGHTS, zone="Europe/Lisbon")
    assert "cannot be read, and does not count" in air_words(air)
    assert bench.shop().room == air.room


def test_air_that_cannot_be_read_costs_nothing_that_was_learned(bench, monkeypatch):
    bench.workshop.air.keep("no air")
    pace = Pace(treatment="acrylic_finish", factor=1.3, spread=0.2, observations=5)
    monkeypatch.setattr(
        "armorplan.cli.shop_now.shop_today",
        lambda shop, *_: replace(shop, room=replace(shop.room, paces=(pace,))),
    )
    assert bench.shop().room == replace(bench.shop.told.room, paces=(pace,))


def test_opening_reads_only_the_air_of_the_last_two_weeks(bench):
    for number in range(5):
        bench.airs.keep(Room(usual=Climate(temperature_c=10 + number)))()
        bench.clock.advance(6 * 86_400)
    since_at = bench.clock.now() - PAST
    assert [number for number, _, _ in bench.workshop.air.since(since_at)] == [3, 4, 5]
    assert bench.shop().room.usual.temperature_c == 14


def test_air_that_was_mistyped_can_be_corrected_since_it_was_kept(bench):
    bench.airs.keep(Room(usual=Climate(temperature_c=20)))()
    bench.clock.advance(86_400)
    kept_at = bench.clock.now()
    bench.airs.keep(Room(usual=Climate(temperature_c=2)))()
    bench.clock.advance(3 * 3600)
    bench.airs.keep(Room(usual=Climate(temperature_c=12)), instead=True)()
    assert bench.airs.air()().kept_at == kept_at
    room = drying_room(bench.shop().room)
    air = [room.air(kept_at + timedelta(hours=h)).temperature_c for h in (-1, 0.1, 2, 5)]
    assert air == [20, 12, 12, 12]


def test_only_a_build_of_the_workshop_dries_in_its_shop(bench):
    with pytest.raises(TypeError):
        bench.airs.go_on(object())


def plan_text(capsys, *options):
    start = "2026-11-30T09:00"
    assert run(["plan", "elbow_cop", "--seconds", "0", "--from", start, *options]) == 0
    return capsys.readouterr().out


def test_a_plan_on_the_command_line_says_which_air_it_reckons_with(bench, tmp_path, capsys):
    bench.airs.keep(COLD_NIGHTS)()
    usual = plan_text(capsys)
    nobody = (
        "Nobody has told the air of this shop: it is taken as 23 °C and 50 %, without a fan.\n"
    )
    assert nobody in usual
    kept = plan_text(capsys, "--workshop", str(tmp_path / "w.sqlite"))
    assert "The air of the shop is kept in the workshop. From 08:00 18 °C, 55 %" in kept
    assert kept.splitlines()[:-1] != usual.splitlines()[:-1]


def test_a_workshop_file_that_is_not_there_is_no_air(tmp_path, capsys):
    missing = tmp_path / "none.sqlite"
    assert run(["plan", "elbow_cop", "--seconds", "0", "--workshop", str(missing)]) != 0
    assert f"There is no workshop file {missing}" in capsys.readouterr().err
    assert not missing.exists()
