"""The drawing without a word, read once, and the shelf."""

import pytest
from samples.unnamed_drawing import unnamed_svg

from armorplan.files.catalogue import read_shelf
from armorplan.files.loose.reading import read_loose


@pytest.fixture(scope="session")
def shelf():
    return read_shelf()


@pytest.fixture(scope="session")
def unnamed_file(tmp_path_factory):
    file = tmp_path_factory.mktemp("unnamed") / "watch parts.svg"
    file.write_text(unnamed_svg(), encoding="utf-8")
    return file


@pytest.fixture(scope="session")
def unnamed(unnamed_file):
    return read_loose(unnamed_file)
