"""Where an own relation contradicts what the trade knows, the advice points at the own one."""

from shutil import copytree

from armorplan.app.opening import check_folder
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.shop import one_maker


def conflict_of(folder, *tables):
    copytree(samples_folder() / "elbow_cop", folder)
    file = folder / "pattern.toml"
    text = file.read_text(encoding="utf-8") + "\n" + "\n".join(tables)
    file.write_text(text, encoding="utf-8")
    findings = check_folder(folder, read_shelf(), one_maker()).findings
    (found,) = (f for f in findings if f.code == "no-order-possible")
    return found, text.splitlines()


def own(name, first, then, force="cannot"):
    return f'[relations.{name}]\nfirst = "{first}"\nthen = "{then}"\nforce = "{force}"'


def test_the_makers_own_is_named_with_its_line(tmp_path):
    found, lines = conflict_of(
        tmp_path / "a", own("row_early", "rivet/left_row_2", "cut/petal_middle")
    )
    assert found.place.key == "relations.row_early"
    assert lines[found.place.line - 1] == "[relations.row_early]"
    assert ", your own relation 'row_early': even that one is 'cannot'" in found.text
    assert found.remedy == "Change [relations.row_early] in pattern.toml, or take it out."
    assert found.about == ("row_early",)


def test_of_several_own_the_lightest_comes_first(tmp_path):
    found, _ = conflict_of(
        tmp_path / "a",
        own("one_way", "cut/petal_left", "cut/petal_middle"),
        own("back", "cut/petal_middle", "cut/petal_left", "would spoil"),
    )
    assert found.place.key == "relations.back"
    assert "[relations.back] or [relations.one_way]" in found.remedy
