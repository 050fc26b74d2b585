"""Settings survive, and a spoilt file costs nothing but the settings."""

import json

import pytest

from armorplan.desktop.settings import ALL, GROUPING, READY_ONLY, TEXT_PCT, THEME, Settings


@pytest.fixture
def path(tmp_path):
    return tmp_path / "config" / "settings.json"


def test_a_first_run_has_defaults_and_writes_nothing(path):
    settings = Settings(path)
    assert settings.value(THEME) == "system"
    assert settings.notice == ""
    assert not path.exists()


def test_values_come_back(path):
    settings = Settings(path)
    settings.put(TEXT_PCT, 140)
    settings.put(READY_ONLY, value=True)
    again = Settings(path)
    assert again.value(TEXT_PCT) == 140
    assert again.value(READY_ONLY) is True
    assert not path.with_suffix(".part").exists()


@pytest.mark.parametrize("spoilt", [b"{", b"[1]", b"\xff\xfe\x00", b""])
def test_a_spoilt_file_is_kept_and_told(path, spoilt):
    path.parent.mkdir()
    path.write_bytes(spoilt)
    settings = Settings(path)
    assert settings.value(TEXT_PCT) == 100
    assert "Kept as" in settings.notice
    assert path.with_suffix(".unreadable.json").read_bytes() == spoilt
    settings.put(THEME, "dark")
    assert Settings(path).value(THEME) == "dark"


def test_a_wrong_value_alone_falls_back(path):
    path.parent.mkdir()
    path.write_text(json.dumps({"theme": "plaid", "text_pct": "big", "grouping": "by day"}))
    settings = Settings(path)
    assert settings.value(THEME) == "system"
    assert settings.value(TEXT_PCT) == 100
    assert settings.value(GROUPING) == "by day"


def test_true_is_not_a_text_size(path):
    path.parent.mkdir()
    path.write_text(json.dumps({"text_pct": True}))
    assert Settings(path).value(TEXT_PCT) == 100


def test_a_value_that_does_not_fit_is_refused(path):
    with pytest.raises(ValueError, match="70 to 300"):
        Settings(path).put(TEXT_PCT, 20)


def test_unknown_keys_of_a_newer_version_stay(path):
    path.parent.mkdir()
    path.write_text(json.dumps({"from_next_year": [1, 2]}))
    Settings(path).put(THEME, "light")
    assert json.loads(path.read_text())["from_next_year"] == [1, 2]


def test_a_folder_that_cannot_be_written_still_holds_the_value(tmp_path, caplog):
    blocker = tmp_path / "config"
    blocker.write_text("a file where the folder should be")
    settings = Settings(blocker / "settings.json")
    settings.put(THEME, "dark")
    assert settings.value(THEME) == "dark"
    assert "Cannot write the settings" in caplog.text


def test_every_setting_is_declared_once_and_allows_its_default():
    keys = [setting.key for setting in ALL]
    assert len(keys) == len(set(keys))
    assert all(s.doc and s.allows(s.default) for s in ALL)
