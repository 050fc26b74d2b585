"""What sentences call a shop's people and builds, also where they share an id."""

from datetime import UTC, datetime

from armorplan.app.plan_naming import naming_of
from armorplan.files.shop_file import read_shop_file
from armorplan.schedule.claims import Claim, Kind
from armorplan.schedule.clash_words import conflict_words
from armorplan.schedule.problem import Job, Problem

SHOP = """
zone = "UTC"
[people.greta]
name = "Greta"
hours = [{ day = "mon", from = "08:00", to = "12:00" }]
[wearers.anna]
name = "Anna"
hours = [{ day = "mon", from = "08:00", to = "09:00" }]
[builds.anna]
title = "Anna's cop"
pattern = "elbow_cop"
"""


def test_a_build_named_like_its_wearer_takes_nothing_from_her_name(tmp_path):
    file = tmp_path / "shop.toml"
    file.write_text(SHOP, encoding="utf-8")
    problem = Problem(
        origin_at=datetime(2025, 3, 3, 7, tzinfo=UTC),
        horizon_min=999,
        activities=(),
        jobs=(Job(id="anna", title="Anna's cop", activities=()),),
    )
    naming = naming_of(read_shop_file(file).shop, problem, source=str(file))
    assert (naming.of("anna"), naming.build("anna")) == ("Anna", "Anna's cop")
    away = Claim(kind=Kind.ABSENCE, of="anna", window=(120, 300))
    assert "Anna is not there Monday 09:00" in conflict_words(problem, (away,), naming)
    assert naming.written["anna"].startswith("[wearers.anna]")
    assert naming.written["builds.anna"].startswith("[builds.anna]")
