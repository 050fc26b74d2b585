"""How many pins a maker has: written into the maker's own pins.toml, all else in it as it was."""

from functools import partial

import pytest

from armorplan.app.own_pins import OwnPins
from armorplan.files.catalogue import PINS_FILE, read_shelf
from armorplan.kernel.errors import ArmorplanError


@pytest.fixture
def pins(tmp_path):
    folder = tmp_path / "mine"

    def shelf():
        return read_shelf(own=folder if folder.is_dir() else None)

    return OwnPins(folder=folder, shelf=shelf)


def counts(pins):
    return {pin.id: pin.owned for pin in pins.held() if pin.owned is not None}


def test_a_count_is_written_and_the_first_says_what_it_means_for_the_others(pins):
    said = pins.keep("bolt_3x12", 12)
    assert said == (
        "Kept: 12 of Bolt M3 × 12 with wing nut. Sizes of which you say no number count as none."
    )
    assert (pins.folder / PINS_FILE).read_text(encoding="utf-8") == "[bolt_3x12]\nowned = 12\n"
    assert pins.keep("bolt_4x12", 0) == "Kept: none of Bolt M4 × 12 with wing nut."
    assert counts(pins) == {"bolt_3x12": 12, "bolt_4x12": 0}


def test_the_makers_own_words_stay(pins):
    own = '# In the tin by the door.\n[tack_3]\nname = "Tack, 3 mm"\n'
    own += 'diameter_mm = 3.0\nlength_mm = 20.0\nover_stack_mm = [2.0, 19.0]\nsource = "mine"\n'
    pins.folder.mkdir()
    (pins.folder / PINS_FILE).write_text(own, encoding="utf-8")
    pins.keep("tack_3", 5)
    pins.keep("tack_3", 6)
    text = (pins.folder / PINS_FILE).read_text(encoding="utf-8")
    assert text == f"{own}owned = 6\n"


def test_taken_out_again_there_are_as_many_as_wanted(pins):
    pins.keep("bolt_3x12", 12)
    pins.keep("bolt_4x12", 3)
    assert pins.forget() == "Kept: as many pins of each size as are wanted."
    assert counts(pins) == {}
    assert pins.keep("bolt_4x12", 3).endswith("count as none.")


def test_a_size_that_is_none_is_refused(pins):
    with pytest.raises(ArmorplanError, match="no size of pin 'nail'"):
        pins.keep("nail", 3)
    assert not pins.folder.exists()


def test_a_file_with_faults_is_told_and_not_written(pins):
    pins.folder.mkdir()
    faulty = "[bolt_3x12]\nowned = -2\n"
    (pins.folder / PINS_FILE).write_text(faulty, encoding="utf-8")
    for press in (partial(pins.keep, "bolt_4x12", 3), pins.forget):
        with pytest.raises(ArmorplanError):
            press()
    assert (pins.folder / PINS_FILE).read_text(encoding="utf-8") == faulty
