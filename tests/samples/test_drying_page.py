"""What the page on drying shows can be typed as it stands, and is read as it says."""

import re
import shlex

import pytest

from armorplan.app.help_pages import help_page, page_text
from armorplan.cli.program import run
from armorplan.files.climate_csv import air_log
from armorplan.files.shop_file import read_shop_file
from armorplan.files.treatment_rows import read_treatment
from armorplan.kernel.shipped import resources_folder

PAGE = (resources_folder() / "help" / "drying.md").read_text(encoding="utf-8")
SHOP = """\
zone = "Europe/Lisbon"

[people.maker]
name = "Maker"
hours = [{ day = "mon", from = "09:00", to = "12:30" }]

"""


def blocks(kind: str) -> list[str]:
    found = re.findall(r"^```(\w*)\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
    return [text for named, text in found if named == kind]


(COMMANDS,) = blocks("")
(LOG,) = blocks("csv")


def test_it_is_a_page_of_the_help():
    page = help_page("drying")
    assert page is not None
    assert page.title.startswith("Drying")
    assert "four times as long" in page_text("drying")


@pytest.mark.parametrize("command", COMMANDS.splitlines())
def test_each_command_can_be_typed(command, tmp_path, monkeypatch, capsys):
    data = tmp_path / "data"
    monkeypatch.setattr("armorplan.store.places.user_data_path", lambda *_, **__: data)
    monkeypatch.chdir(tmp_path)
    assert run(shlex.split(command)[1:]) == 0
    assert "Dry to handle" in capsys.readouterr().out


@pytest.mark.parametrize("toml", blocks("toml"))
def test_each_shop_is_read_without_a_word(toml, tmp_path):
    (tmp_path / "logger.csv").write_text(LOG, encoding="utf-8")
    shop = tmp_path / "shop.toml"
    shop.write_text(SHOP + toml, encoding="utf-8")
    assert read_shop_file(shop).findings == ()


def test_the_loggers_rows_are_read():
    log = air_log("logger.csv", LOG.encode(), zone="Europe/Lisbon")
    assert [r.climate.humidity_pct for r in log.readings] == [62, 63.5]
    assert log.findings == ()


@pytest.mark.parametrize(
    ("climate", "treatment", "least", "most"),
    [
        ("10,80", "water_dye", 380, 400),  # nearly four times
        ("23,50,1", "water_dye", 55, 65),  # about 0.6 of the time
    ],
)
def test_the_numbers_it_tells_are_those_that_are_reckoned(climate, treatment, least, most, capsys):
    run(["dry", treatment, "--climate", climate, "--from", "2026-11-30T17:00Z"])
    share = int(re.search(r"(\d+) % of the catalogue", capsys.readouterr().out)[1])
    assert least <= share <= most


def test_alcohol_takes_about_twice_as_long_at_10_as_at_20_degrees(capsys):
    shares = []
    for climate in ("10,50", "20,50"):
        run(["dry", "alcohol_dye", "--climate", climate, "--from", "2026-11-30T17:00Z"])
        shares.append(int(re.search(r"(\d+) % of the catalogue", capsys.readouterr().out)[1]))
    assert shares[0] / shares[1] == pytest.approx(2, rel=0.1)


def test_every_field_of_a_treatment_that_it_names_is_one():
    named = set(re.findall(r"`(\w+)`", PAGE[PAGE.index("## Treatments of your own") :]))
    code = read_treatment.__code__.co_consts
    known = {word for word in code if isinstance(word, str)} | {"window_min"}
    assert named <= known
    assert {"drip_min", "film_from_c", "missed_is_loss", "limit_source"} <= named
