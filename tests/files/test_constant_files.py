"""The numbers of the bench: shipped, a maker's own over them, and their faults."""

from dataclasses import fields

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import UnreadableError
from armorplan.workshop.constants import Constants


@pytest.fixture
def constants_with(tmp_path):
    def read(text):
        (tmp_path / "constants.toml").write_text(text, encoding="utf-8")
        return read_shelf(own=tmp_path).constants

    return read


def test_the_shipped_numbers_are_those_the_program_has_without_a_file():
    assert read_shelf().constants == Constants()


def test_every_number_has_a_unit_a_name_and_a_source():
    shipped = read_shelf().constants
    for field in fields(Constants):
        constant = getattr(shipped, field.name)
        assert constant.unit, field.name
        assert constant.name, field.name
        assert constant.source, field.name


def test_one_value_of_the_maker_s_own_leaves_the_others_as_they_are(constants_with):
    found = constants_with("[flat_slide]\nvalue = 4\n")
    assert found.flat_slide.value == 4.0
    assert found.flat_slide.source == "own value; otherwise 5 %: common practice, no source"
    assert found.flat_slide.name == Constants().flat_slide.name
    assert found.damp_slide == Constants().damp_slide


def test_the_maker_s_own_source_stands_alone(constants_with):
    found = constants_with('[neutral]\nvalue = 0.42\nsource = "five strips of bend"\n')
    assert (found.neutral.value, found.neutral.source) == (0.42, "five strips of bend")


def test_the_unit_may_be_written_too(constants_with):
    assert constants_with('[misfit]\nvalue = 0.4\nunit = "mm"\n').misfit.value == 0.4


@pytest.mark.parametrize(
    ("text", "code", "line", "says"),
    [
        ("[flat_slid]\nvalue = 4", "unknown-key", 1, '"flat_slide"'),
        ("[flat_slide]\nvalues = 4", "unknown-key", 2, '"value"'),
        ("flat_slide = 4", "wrong-value", 1, "a table, [flat_slide]"),
        ("[flat_slide]\nvalue = -1", "wrong-value", 2, "at least 0 and at most 100 %"),
        ("[flat_slide]\nvalue = nan", "wrong-value", 2, "a number"),
        ("[flat_slide]\nvalue = '4 %'", "wrong-value", 2, "a number"),
        ("[flat_slide]\nvalue = 12", "wrong-value", 2, "cannot be above damp_slide"),
        ("[damp_slide]\nvalue = 3", "wrong-value", 2, "cannot be above damp_slide"),
        ("[dry_radius]\nvalue = 0.5", "wrong-value", 2, "cannot be above dry_radius"),
        ("[misfit]\nvalue = 2", "wrong-value", 2, "cannot be above bad_misfit"),
        ("[neutral]\nvalue = 1.2", "wrong-value", 2, "at most 1"),
        ('[misfit]\nvalue = 1\nunit = "in"', "wrong-value", 3, 'Write "mm"'),
        ("[misfit", "toml-syntax", 1, "not valid TOML"),
    ],
)
def test_faults_have_file_line_and_remedy(constants_with, text, code, line, says):
    with pytest.raises(UnreadableError) as caught:
        constants_with(text)
    (found,) = caught.value.findings
    assert (found.code, found.place.line) == (code, line)
    assert found.place.file.endswith("/constants.toml")
    assert says in f"{found.text} {found.remedy}"


def test_a_leather_may_say_where_its_bends_keep_their_length(tmp_path):
    (tmp_path / "leathers.toml").write_text("[strap]\nneutral = 0.41\n", encoding="utf-8")
    leather = read_shelf(own=tmp_path).leather("strap")
    assert leather.neutral == 0.41
    assert leather.source.startswith("own value for neutral; otherwise: ")
    assert read_shelf().leather("strap").neutral is None


def test_it_lies_within_the_leather(tmp_path):
    (tmp_path / "leathers.toml").write_text("[strap]\nneutral = 1.1\n", encoding="utf-8")
    with pytest.raises(UnreadableError) as caught:
        read_shelf(own=tmp_path)
    assert [f.place.key for f in caught.value.findings] == ["strap.neutral"]
