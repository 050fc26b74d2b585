"""To the wearer: fields become measures, what is typed is fitted, kept, written; all by key."""

import pytest
from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QLabel,
    QLineEdit,
    QTabWidget,
    QWidget,
)

from armorplan.app.draft import Bench, drafted, refused
from armorplan.app.drafting import Home, OpenDraft
from armorplan.app.wearer_desk import WearerCore
from armorplan.app.wearer_fit import Asked, fitted
from armorplan.app.wearer_shelf import kept_wearers
from armorplan.desktop.wearer_desk import WearerDesk
from armorplan.desktop.wearer_fields import Typed, Unit, id_of, shown, wearer_of
from armorplan.desktop.widgets.wearer_door import WearerDoor
from armorplan.desktop.widgets.wearer_page import WearerPage
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PATTERN_FILE, read_folder
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.measures import Sex
from armorplan.workshop.shop import one_maker
from armorplan.workshop.wearers import Wearer

SHELF = read_shelf()
COP = read_folder(samples_folder() / "elbow_cop")
DRAFT = drafted(COP, Bench(shelf=SHELF, shop=one_maker("UTC")), is_hasty=True)
WEARERS = """# the watch
[wearers.mara]
name = "Mara of the west mole"
sex = "female"
measures = { elbow_girth = 285, upper_arm_length = 305, calf_girth = 350 }
padding_mm = 6
"""


class QuickCore(WearerCore):
    """The real one; what it fitted once it gives back at once."""

    made: dict = {}  # noqa: RUF012 - shared by the tests of this file

    def __init__(self, file):
        super().__init__(lambda: SHELF, file)
        self.asked = []

    def fit(self, _view, asked):
        self.asked.append(asked)
        wearer = asked.wearer
        if wearer.measures.get("elbow_girth", 285) < 100:
            return refused("Elbow girth, bent is 28.5 mm.", "Write it in mm.")
        if asked.version not in self.made:
            mara = Wearer(
                id="mara",
                name="Mara of the west mole",
                measures={"elbow_girth": 285.0, "upper_arm_length": 305.0},
                padding_mm=6.0,
            )
            self.made[asked.version] = fitted(
                COP, Asked(wearer=mara, version=asked.version), SHELF
            )
        return self.made[asked.version]


@pytest.fixture
def home(tmp_path):
    (tmp_path / "wearers.toml").write_text(WEARERS, encoding="utf-8")
    folder = tmp_path / "patterns" / "elbow_cop"
    folder.mkdir(parents=True)
    return folder


@pytest.fixture
def desk(qtbot, bridge, tmp_path, home):
    opened = OpenDraft(draft=DRAFT, home=Home(folder=home, saved_texts=DRAFT.texts))
    core = QuickCore(tmp_path / "wearers.toml")
    made = WearerDesk(bridge, core, lambda _session: lambda: opened)
    made.core = core
    yield made
    made.close()


@pytest.fixture
def page(qtbot, desk):
    made = WearerPage(desk)
    qtbot.addWidget(made)
    made._pause.setInterval(0)
    made.show()
    made.begin()
    qtbot.waitUntil(
        lambda: "299" in made.tabs.text.toPlainText() or made.write.isEnabled(), timeout=15000
    )
    yield made
    made.close()


def field(page, measure, kind="bare"):
    return page.findChild(QLineEdit, f"wearer_{kind}_{measure}")


# --- what is typed -----------------------------------------------------------------------------------


def typed(**changes):
    usual = {
        "id": "",
        "name": "Bet of the ropewalk",
        "sex": Sex.FEMALE,
        "padding": "6",
        "unit": Unit.MM,
        "bare": {"elbow_girth": "285"},
        "padded": {"elbow_girth": ""},
    }
    return Typed(**(usual | changes))


@pytest.mark.parametrize(
    ("unit", "words", "mm"),
    [(Unit.MM, "285", 285), (Unit.CM, "28,5", 285), (Unit.INCH, "11.22 in", 284.99)],
)
def test_measures_are_typed_in_any_unit(unit, words, mm):
    wearer = wearer_of(typed(unit=unit, bare={"elbow_girth": words}), None)
    assert wearer.measures == {"elbow_girth": pytest.approx(mm)}
    assert wearer.id == "bet_of_the_ropewalk"


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"padding": "thick"}, "Padding: write a number of mm from 0 to 30"),
        ({"padding": "70"}, "from 0 to 30"),
        ({"bare": {"elbow_girth": "wide"}}, "write a number of mm from 0 to 10000"),
        ({"padded": {"elbow_girth": "-3"}}, "-3: write"),
        ({"unit": Unit.CM, "bare": {"elbow_girth": "nan"}}, "of cm from 0 to 1000"),
    ],
)
def test_what_cannot_be_read_says_what_would_be_fine(changes, said):
    assert said in wearer_of(typed(**changes), None)


def test_measures_that_are_not_asked_for_here_stay():
    former = Wearer(id="bet", name="Bet", measures={"calf_girth": 350.0, "elbow_girth": 1.0})
    wearer = wearer_of(typed(id="bet", bare={"elbow_girth": ""}), former)
    assert wearer.measures == {"calf_girth": 350.0}


def test_values_and_ids_are_plain():
    assert shown(284.5, Unit.CM) == "28.45"
    assert shown(None, Unit.MM) == ""
    assert id_of("  Jory, of the Ferry ") == "jory_of_the_ferry"
    assert id_of("…") == "wearer"


# --- the page ----------------------------------------------------------------------------------------


def test_what_is_kept_is_shown_and_fitted(page, desk):
    assert page.form.who.name.text() == "Mara of the west mole"
    assert field(page, "elbow_girth").text() == "285"
    assert field(page, "upper_arm_length", "padded").isHidden()
    assert "left row" in page.tabs.text.toPlainText()
    assert "7 holes, 21.5" in page.tabs.text.toPlainText()
    assert desk.core.asked[-1].wearer.padding_mm == 6.0
    assert "36 of 100" in page.form.fields[1].bar.accessibleName()


def test_another_unit_shows_the_same_measures(page):
    page.form.who.unit.setCurrentIndex(1)
    assert field(page, "elbow_girth").text() == "28.5"
    assert page.form.wearer().measures["elbow_girth"] == 285.0
    assert page.form.wearer().padding_mm == 6.0


def test_a_rare_value_is_asked_about_beside_its_field(page):
    field(page, "upper_arm_length").setText("30.5")
    question = page.form.fields[1].question
    assert question.isVisibleTo(page)
    assert "If it was typed in cm, it is 305 mm." in question.text()
    mend = page.form.fields[1].mend
    assert mend.text() == "Take Upper arm length as 305 mm"
    mend.click()
    assert field(page, "upper_arm_length").text() == "305"
    assert not question.isVisibleTo(page)
    assert not mend.isVisibleTo(page)


def test_inches_over_the_padding_are_asked_about_without_a_sex(page):
    page.form.who.sex.setCurrentIndex(0)
    field(page, "elbow_girth").setText("")
    field(page, "elbow_girth", "padded").setText("13")
    fields = page.form.fields[0]
    assert "If it was typed in inches, it is 330.2 mm." in fields.question.text()
    fields.mend.click()
    assert field(page, "elbow_girth", "padded").text() == "330.2"


def test_no_field_is_pushed_away_by_a_question(page):
    place = field(page, "upper_arm_length").pos()
    field(page, "elbow_girth").setText("28.5")
    assert page.form.fields[0].question.isVisibleTo(page)
    page.form.layout().activate()
    assert field(page, "upper_arm_length").pos() == place


def test_a_refusal_is_shown_and_nothing_can_be_written(qtbot, page):
    field(page, "elbow_girth").setText("28.5")
    page.fit_now()
    qtbot.waitUntil(lambda: "28.5 mm" in page.tabs.text.toPlainText())
    assert not page.write.isEnabled()


def test_what_cannot_be_read_is_told_and_not_fitted(page, desk):
    count = len(desk.core.asked)
    field(page, "elbow_girth").setText("wide")
    assert "write a number" in page.fault.text()
    page.fit_now()
    assert len(desk.core.asked) == count
    assert not page.keep.isEnabled()


def test_measures_are_kept_with_what_else_stands_in_the_file(qtbot, page, desk, tmp_path):
    field(page, "elbow_girth").setText("290")
    page.keep.click()
    qtbot.waitUntil(lambda: "Kept among your wearers, in " in page.fault.text())
    assert str(tmp_path / "wearers.toml") in page.fault.text()
    file = tmp_path / "wearers.toml"
    qtbot.waitUntil(lambda: "290" in file.read_text(encoding="utf-8"))
    (kept,) = kept_wearers(file, SHELF).wearers
    assert kept.measures == {"elbow_girth": 290.0, "upper_arm_length": 305.0, "calf_girth": 350.0}
    assert file.read_text(encoding="utf-8").startswith("# the watch")


def test_a_new_wearer_begins_empty_and_is_kept_beside(qtbot, page, tmp_path):
    page.form.who.new.click()
    assert field(page, "elbow_girth").text() == ""
    page.form.who.name.setText("Jory")
    field(page, "elbow_girth", "padded").setText("395")
    page.keep.click()
    file = tmp_path / "wearers.toml"
    qtbot.waitUntil(lambda: "jory" in file.read_text(encoding="utf-8"))
    qtbot.waitUntil(lambda: page.form.who.wearers.count() == 2)
    assert page.form.who.name.text() == "Jory"


def test_it_is_written_listed_and_fitted_anew(qtbot, page, desk, home):
    with qtbot.waitSignal(desk.wrote, timeout=15000) as wrote:
        page.writing.write_into(home.parent)
    folder = wrote.args[0]
    assert folder == home.parent / "elbow_cop_mara"
    assert (folder / PATTERN_FILE).is_file()
    qtbot.waitUntil(
        lambda: "Mara of the west mole: version 1" in page.tabs.folders.list.item(0).text()
    )
    assert page.tabs.folders.again.isEnabled()
    with qtbot.waitSignal(desk.wrote, timeout=15000):
        page.tabs.folders.again.click()
    assert 2 in {asked.version for asked in desk.core.asked}
    qtbot.waitUntil(lambda: "version 2" in page.tabs.folders.list.item(0).text())


def test_who_is_not_kept_yet_is_kept_when_it_is_written(qtbot, page, desk, home, tmp_path):
    page.form.who.new.click()
    page.form.who.name.setText("Jory")
    field(page, "elbow_girth", "padded").setText("395")
    with qtbot.waitSignal(desk.wrote, timeout=15000):
        page.writing.write_into(home.parent)
    assert "is written in" in page.fault.text()
    assert "kept in" in page.fault.text()
    assert page.form.who.name.text() == "Jory"
    assert field(page, "elbow_girth", "padded").text() == "395"
    assert "jory" in (tmp_path / "wearers.toml").read_text(encoding="utf-8")


def test_who_is_typed_stays_while_the_pattern_is_read_anew(qtbot, page, desk):
    page.form.who.new.click()
    page.form.who.name.setText("Jory")
    field(page, "elbow_girth").setText("300")
    with qtbot.waitSignal(desk.shown):
        page.begin()
    assert (page.form.who.name.text(), field(page, "elbow_girth").text()) == ("Jory", "300")


def test_what_is_typed_of_one_who_is_kept_stays_while_folders_are_looked_through(
    qtbot, page, desk, tmp_path
):
    field(page, "elbow_girth").setText("291")
    with qtbot.waitSignal(desk.shown):
        desk.look(tmp_path)
    assert field(page, "elbow_girth").text() == "291"


def test_parts_are_gone_through_by_key(page):
    picture = page.tabs.picture
    assert picture.part.id == "petal_left"
    QTest.keyClick(picture, Qt.Key.Key_Right)
    assert picture.part.id == "petal_middle"
    QTest.keyClick(picture, Qt.Key.Key_End)
    assert picture.part.id == "closing_strap"
    assert "closing strap, 4 of 4" in picture.accessibleDescription()
    page.findChild(QAbstractButton, "wearer_part_back").click()
    assert picture.part.id == "petal_right"
    assert "8 holes, now 6: 2 gone (crossed)" in picture.accessibleDescription()
    picture.resize(300, 240)
    assert not picture.grab().toImage().isNull()


def test_every_control_has_a_name(page):
    for kind in (QLineEdit, QComboBox, QAbstractButton):
        for one in page.findChildren(kind):
            if one.isVisibleTo(page) and one.objectName().startswith("wearer"):
                words = one.accessibleName() or getattr(one, "text", lambda: "")()
                assert words, one.objectName()


def test_where_a_measure_is_taken_is_said_at_its_field(qtbot, page):
    page.activateWindow()
    field(page, "upper_arm_length").setFocus()
    page.form._describe(None, field(page, "upper_arm_length"))
    assert "bony tip of the shoulder" in page.form.described.text()


# --- what follows which measure ----------------------------------------------------------------------


@pytest.fixture
def bare(qtbot, bridge, tmp_path, home):
    """A page at a pattern that says nothing of whom it was drawn for."""
    text = DRAFT.text
    start, end = text.index("[drawn_for.elbow"), text.index("# -- treatments")
    (home / PATTERN_FILE).write_text(text[:start] + text[end:], encoding="utf-8")
    drawing = dict(DRAFT.texts)["elbow_cop.svg"]
    (home / "elbow_cop.svg").write_text(drawing, encoding="utf-8")
    draft = drafted(read_folder(home), DRAFT.bench, is_hasty=True)
    opened = OpenDraft(draft=draft, home=Home(folder=home, saved_texts=draft.texts))
    core = QuickCore(tmp_path / "wearers.toml")
    desk = WearerDesk(bridge, core, lambda _session: lambda: opened)
    desk.core = core
    made = WearerPage(desk)
    qtbot.addWidget(made)
    with qtbot.waitSignal(desk.shown):
        made.begin()
    yield made
    made.close()
    desk.close()


def test_a_pattern_drawn_for_nobody_is_told_in_the_page_what_follows(qtbot, bare, home):
    following = bare.tabs.following
    assert bare.tabs.currentWidget() is following
    assert "No part of" in bare.title.text()
    bare.form.begin_new()
    following.list.selectAll()
    following.around.setCurrentIndex(following.around.findData("elbow_girth"))
    following.around.activated.emit(following.around.currentIndex())
    assert "left petal (cop) – width: Elbow girth, bent" in following.list.item(0).text()
    following.save.click()
    qtbot.waitUntil(lambda: "Say how many mm Elbow girth, bent was" in bare.fault.text())
    following.drawn.fields["elbow_girth"].setText("340")
    following.save.click()
    qtbot.waitUntil(lambda: "Written into the pattern" in bare.fault.text())
    assert field(bare, "elbow_girth") is not None
    # What was chosen stays chosen, and who was not typed is nobody yet.
    assert len(following.list.selectedItems()) == 8
    assert bare.form.who.name.text() == ""
    pattern = read_pattern(read_folder(home), SHELF).pattern
    assert [(one.id, one.mm) for one in pattern.drawn_for] == [("elbow_girth", 340)]
    (scaling,) = pattern.scalings
    assert (scaling.along, scaling.around, len(scaling.parts)) == ("", "elbow_girth", 8)


def test_a_strap_has_no_height_to_follow(bare):
    following = bare.tabs.following
    following.list.setCurrentRow(3)
    assert not following.along.isEnabled()
    assert following.around.isEnabled()


# --- the way from the bench and back -----------------------------------------------------------------


class FakeOpener(QObject):
    refused = Signal()

    def __init__(self, bridge):
        super().__init__()
        self._bridge = bridge
        self.opened = []

    def open(self, folder):
        self.opened.append(folder)
        self._bridge.opened.emit()


@pytest.fixture
def door(qtbot, bridge, desk, tmp_path):
    window = QWidget()
    qtbot.addWidget(window)
    made = WearerDoor(
        bridge,
        FakeOpener(bridge),
        lambda: SHELF,
        desk._drafts,
        (tmp_path / "wearers.toml", window),
    )
    made.desk._core = desk.core
    yield made
    made.close()


def test_what_is_written_is_laid_on_the_bench_and_the_page_stays_at_its_pattern(qtbot, door, home):
    with qtbot.waitSignal(door.desk.shown):
        door.show_page()
    view = door.desk.view
    with qtbot.waitSignal(door.desk.wrote, timeout=15000):
        door._page.writing.write_into(home.parent)
    assert door._opener.opened == [home.parent / "elbow_cop_mara"]
    qtbot.waitUntil(lambda: door.desk.view is not None and bool(door.desk.view.found))
    assert door.desk.view.uuid == view.uuid


def test_another_build_at_the_bench_is_read_anew(qtbot, door, bridge):
    with qtbot.waitSignal(door.desk.shown):
        door.show_page()
    with qtbot.waitSignal(door.desk.shown):
        bridge.opened.emit()


def test_no_two_things_of_the_page_have_the_same_letter(page):
    words = [b.text() for b in page.findChildren(QAbstractButton) if b.objectName()]
    words += [label.text() for label in page.findChildren(QLabel) if label.buddy() is not None]
    tabs = page.findChild(QTabWidget, "wearer_tabs")
    words += [tabs.tabText(at) for at in range(tabs.count())]
    letters = [w[w.index("&") + 1].casefold() for w in words if "&" in w]
    assert len(letters) > 8
    assert len(letters) == len(set(letters)), sorted(letters)
