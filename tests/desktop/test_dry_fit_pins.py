"""How many pins there are, said in the dry fit: a size, a number, and the rounds are reckoned anew."""

from dataclasses import replace

import pytest
from desktop.fake_dry_fit import fit_plan_of
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from armorplan.desktop.bench_fits import BenchFits
from armorplan.desktop.dry_fit_lines import LineKind
from armorplan.desktop.pin_desk import PLENTY, count_of, sizes_screen
from armorplan.desktop.widgets.dry_fit_panel import DryFitPanel
from armorplan.kernel.errors import ArmorplanError
from armorplan.workshop.pins import PinEntry


def size(name, owned=None):
    return PinEntry(
        id=name,
        name=f"Bolt {name[5:]}",
        diameter_mm=3.0,
        length_mm=12.0,
        over_stack_mm=(4.0, 11.0),
        source="common practice, no source",
        owned=owned,
    )


class FakePins:
    """Fulfils ``bridge.PinBench`` without files."""

    def __init__(self):
        self.pins = tuple(size(name) for name in ("bolt_2x12", "bolt_4x12", "bolt_3x12"))
        self.refusal = ""

    def held(self):
        return self.pins

    def keep(self, pin, owned):
        if self.refusal:
            raise ArmorplanError(self.refusal)
        self.pins = tuple(replace(p, owned=owned) if p.id == pin else p for p in self.pins)
        return f"Kept: {owned} of {pin}."

    def forget(self):
        self.pins = tuple(replace(p, owned=None) for p in self.pins)
        return "Kept: plenty."


@pytest.fixture
def bench(bridge):
    bridge.pins = made = FakePins()
    return made


@pytest.fixture
def panel(qtbot, bridge, bench):
    made = DryFitPanel(bridge)
    qtbot.addWidget(made)
    made.resize(760, 640)
    made.show()
    made.begin()
    qtbot.waitUntil(lambda: bool(made.lines.lines))
    yield made
    made.close_jobs()
    made.close()


def owned(bench):
    return {pin.id: pin.owned for pin in bench.pins}


def said_of(panel, kind=LineKind.PINS):
    return next(line for line in panel.lines.lines if line.kind is kind)


def test_a_count_is_said_in_a_few_keys_and_reckoned_with_at_once(qtbot, panel, bench, bridge):
    QTest.keyClick(panel.lines, Qt.Key.Key_P)
    sizes = panel.pins.answers
    assert sizes.item(0).text() == "1  Bolt 3x12 – not said, 6 wanted here"
    QTest.keyClick(sizes, Qt.Key.Key_1)
    assert panel.heading.text() == "Bolt 3x12: how many do you have?"
    assert panel.pins.count.value() == 6
    QTest.keyClicks(panel.pins.count, "17")
    with qtbot.waitSignal(panel.desk.planned):
        QTest.keyClick(panel.pins.count, Qt.Key.Key_Return)
    assert owned(bench) == {"bolt_2x12": None, "bolt_4x12": None, "bolt_3x12": 17}
    assert panel.heading.text() == "Kept: 17 of bolt_3x12."
    assert sizes.item(0).text() == "1  Bolt 3x12 – 17 there, 6 wanted here"
    assert sizes.item(1).text() == "2  Bolt 4x12 – none there, 2 wanted here"
    QTest.keyClick(sizes, Qt.Key.Key_Escape)
    assert panel.lines.isVisible()


def test_the_line_opens_it_and_the_verbs_alone_do_it(qtbot, panel, bench):
    panel.lines.setCurrentRow(panel.lines.lines.index(said_of(panel)))
    panel.take()
    panel.take()
    panel.step(1)
    panel.step(-1)
    panel.step(1)
    with qtbot.waitSignal(panel.desk.planned):
        panel.take()
    assert owned(bench)["bolt_3x12"] == 7
    panel.back()
    assert panel.lines.isVisible()


def test_a_count_is_left_by_escape_and_nothing_is_kept(panel, bench):
    panel.count_pins()
    panel.take()
    assert panel.pins.count.isVisible()
    QTest.keyClick(panel.pins.count, Qt.Key.Key_Escape)
    assert not panel.pins.count.isVisible()
    assert panel.pins.answers.isVisible()
    assert set(owned(bench).values()) == {None}


def test_as_many_as_it_takes_is_said_once_there_are_counts(qtbot, panel, bench):
    bench.pins = (size("bolt_3x12", 4), size("bolt_4x12"))
    panel.begin()
    qtbot.waitUntil(lambda: panel._plan.pins == bench.pins)
    panel.count_pins()
    assert panel.pins.answers.key(2) == PLENTY
    with qtbot.waitSignal(panel.desk.planned):
        QTest.keyClick(panel.pins.answers, Qt.Key.Key_3)
    assert set(owned(bench).values()) == {None}
    assert panel.pins.answers.count() == 2


def test_what_the_disk_refuses_is_told(qtbot, panel, bench):
    bench.refusal = "pins.toml cannot be written: no space left. Nothing was kept."
    panel.count_pins()
    panel.take()
    panel.take()
    qtbot.waitUntil(lambda: panel.heading.text() == bench.refusal)


def test_where_there_are_no_catalogues_it_is_told(panel, bridge):
    bridge.pins = None
    panel.count_pins()
    panel.take()
    panel.take()
    assert panel.heading.text() == "There are no catalogues here to keep pins in."


def test_the_bench_view_reckons_with_them_too(qtbot, panel, bridge, session):
    fits = BenchFits(bridge, lambda _page: True, panel)
    fits.desk.ask()
    with qtbot.waitSignal(fits.planned):
        pass
    with qtbot.waitSignals([panel.desk.planned, fits.planned]):
        panel.count_pins()
        panel.take()
        panel.take()
    fits.close()


def test_sizes_come_by_what_the_fit_takes_then_by_what_there_is(session):
    fit = fit_plan_of(session.steps).fits[0]
    held = (size("bolt_5x12"), size("bolt_2x12", 1), size("bolt_4x12"), size("bolt_3x12", 0))
    screen = sizes_screen(fit, held)
    named = ["bolt_3x12", "bolt_4x12", "bolt_2x12", "bolt_5x12", PLENTY]
    assert [choice.key for choice in screen.choices] == named
    assert screen.choices[0].more == "none there, 6 wanted here"
    assert count_of(fit, held, "bolt_3x12") == 0
    assert count_of(fit, held, "bolt_4x12") == 2
    assert count_of(fit, held, "bolt_5x12") == 0
