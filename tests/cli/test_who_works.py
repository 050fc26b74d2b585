"""Who works in a window."""

from dataclasses import replace
from pathlib import Path

import pytest

from armorplan.cli.who_works import who_works
from armorplan.kernel.errors import ArmorplanError
from armorplan.workshop.shop import one_maker

SHOP = one_maker()
MAUD = replace(SHOP.people[0], id="maud", name="Maud of the quay")
TWO = replace(SHOP, people=(MAUD, replace(MAUD, id="nils", name="Nils")))
FILE = Path("shop.toml")


@pytest.mark.parametrize("given", ["maud", "MAUD", " Maud of the quay "])
def test_a_person_of_the_shop_file_is_known_by_id_and_name(given):
    assert who_works(given, TWO, FILE) == "Maud of the quay"


def test_nobody_says_or_no_file_names_the_people():
    assert who_works(None, TWO, FILE) == ""
    assert who_works("  ", TWO, FILE) == ""
    assert who_works("Ida", SHOP, None) == "Ida"


def test_a_name_that_nobody_has_is_told_with_those_there_are():
    with pytest.raises(ArmorplanError, match=r"Nobody called 'Ida'.*Maud of the quay, Nils"):
        who_works("Ida", TWO, FILE)
