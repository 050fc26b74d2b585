"""A way out says where it is changed: a table of the shop file with its line, or at the bench."""

from dataclasses import replace

import pytest
from schedule.hand_shops import lames

from armorplan.app.mend_places import where_words
from armorplan.app.plan_naming import naming_of
from armorplan.schedule.claims import Claim, Kind
from armorplan.schedule.mends import Deed, Mend
from armorplan.schedule.problem import Job
from armorplan.workshop.places import DipBath, Rack, Station
from armorplan.workshop.shop import Person, Shop, Wearer, usual_hours
from armorplan.workshop.skill_how import SkillHow

TEXT = """zone = "UTC"
[people.m]
name = "Maker"
hours = [{ day = "mon", from = "08:00", to = "18:00" }]
[racks.line]
name = "Line"
line_mm = 900
[builds.cuff]
pattern = "elbow_cop"
from = 2026-12-07
"""
SHOP = Shop(
    people=(Person(id="m", name="Maker", hours=usual_hours()),),
    wearers=(Wearer(id="w", name="Captain"),),
    baths=(DipBath(id="vat", name="Vat", area_dm2=2.0, change_min=20),),
    racks=(Rack(id="line", name="Line", line_mm=900.0, shelf_dm2=40.0),),
    stations=(Station(id="anvil", name="Anvil", kinds=("rivet",)),),
)


def where(kind, of, *, source="", who="", problem=None):
    naming = naming_of(SHOP, problem, source=source)
    mend = Mend(claim=Claim(kind=kind, of=of), deed=Deed.ADD, who=who)
    return where_words(problem or lames(), (mend, mend), naming)


@pytest.fixture
def source(tmp_path):
    file = tmp_path / "shop.toml"
    file.write_text(TEXT, encoding="utf-8")
    return str(file)


@pytest.mark.parametrize(
    ("kind", "of", "words"),
    [
        (Kind.HOURS, "m", "Write it under extra at [people.m] of the shop file."),
        (Kind.ABSENCE, "w", "Write it under appointments at [wearers.w] of the shop file."),
        (Kind.PLACES, "line.line", "Change line_mm at [racks.line] of the shop file."),
        (Kind.PLACES, "line.shelf", "Change shelf_dm2 at [racks.line] of the shop file."),
        (Kind.PLACES, "anvil", "Change count at [stations.anvil] of the shop file."),
        (Kind.OPEN, "anvil", "Change hours at [stations.anvil] of the shop file."),
        (Kind.BATH, "vat", "Change its tray, or area_dm2, at [baths.vat] of the shop file."),
    ],
)
def test_what_the_shop_has_is_changed_in_its_file(kind, of, words):
    assert where(kind, of) == words


def test_where_the_file_is_known_the_line_is_told(source):
    assert where(Kind.HOURS, "m", source=source) == (
        "Write it under extra at [people.m] in shop.toml, line 2."
    )
    assert where(Kind.HANDS, "cut", who="m", source=source) == (
        "Change can or cannot at [people.m] in shop.toml, line 2."
    )


@pytest.mark.parametrize(
    ("skills", "words"),
    [
        ({"cannot": ("cut",)}, "Change can or cannot at [people.m] of the shop file."),
        ({"beside": ("cut",)}, "Change beside at [people.m] of the shop file."),
        (
            {"signed_off": (("cut", SkillHow.NOT_YET),), "beside": ("cut",)},
            "At the bench: have 'cut' signed off for Maker as done alone (Ctrl+Alt+R, Signed off).",
        ),
    ],
)
def test_who_may_do_a_step_is_changed_where_it_is_said(skills, words):
    shop = replace(SHOP, people=(replace(SHOP.people[0], **skills),))
    mend = Mend(claim=Claim(kind=Kind.HANDS, of="b/cuff/left/cut/plate"), deed=Deed.ADD, who="m")
    assert where_words(lames(), (mend,), naming_of(shop)) == words


def test_a_date_is_changed_at_the_bench_or_where_it_was_ordered(source):
    bench = lames()
    first = bench.activities[0].id
    bench = type(bench)(
        origin_at=bench.origin_at,
        horizon_min=bench.horizon_min,
        activities=bench.activities,
        jobs=(Job(id="cuff-1", activities=(first,), title="Cuff"),),
    )
    bench_words = "At the bench: another day to begin, under Builds in hand (Ctrl+Shift+D)"
    assert where(Kind.EARLIEST, first, problem=bench) == f"{bench_words}."
    assert where(Kind.EARLIEST, first, problem=bench, source=source) == (
        f"{bench_words}, or from at [builds.cuff] in shop.toml, line 8."
    )


def test_what_a_reason_asks_is_looked_at_at_the_bench():
    name = lames().activities[-1]
    words = where(Kind.WINDOW, name.id)
    assert words.startswith("At the bench: choose “")
    assert "(Ctrl+6)" in words
    assert "(Ctrl+E)" in words


def test_the_keys_that_are_told_are_those_of_the_window():
    from armorplan.desktop.actions import TABLE

    keys = {row.id: row.keys for row in TABLE}
    for action, key in (
        ("show_builds", "Ctrl+Shift+D"),
        ("go_why", "Ctrl+6"),
        ("edit_pattern", "Ctrl+E"),
        ("tell_air", "Ctrl+Shift+H"),
        ("show_practice", "Ctrl+Alt+R"),
    ):
        assert key in keys[action]
