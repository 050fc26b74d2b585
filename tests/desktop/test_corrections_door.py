"""From the bench to a real pattern's corrections: found at a dry fit, accepted, in its next version."""

import pytest
from desktop.edit_bench import edit_bench
from PySide6.QtCore import Qt

from armorplan.app.fit_findings import FitFinding, FoundKind, finding_text
from armorplan.desktop.widgets.corrections_page import CorrectionsPage
from armorplan.ledger import acting
from armorplan.ledger.events import EventKind
from armorplan.steps.model import StepKind


@pytest.fixture
def bench(tmp_path, qtbot, qapp, monkeypatch):
    yield from edit_bench(tmp_path, qtbot, monkeypatch)


def test_what_a_dry_fit_found_is_in_the_pattern_s_next_version_by_two_keys(bench, qtbot):
    session = bench.bridge.session
    (fit, *_) = session.derived.work.of_kind(StepKind.DRY_FIT)
    gap = FitFinding(look="gap:left_row", about="left_row_3", kind=FoundKind.GAP, mm=2.0)
    told = acting.tell(EventKind.FOUND, fit.id, finding_text(gap), session.press())
    session.keep(told, "")
    bench.window.actions_by_id["show_corrections"].trigger()
    page = bench.window.findChild(CorrectionsPage)
    desk = bench.window._own.corrections.desk
    qtbot.waitUntil(lambda: page.rows.count() == 1, timeout=20_000)
    qtbot.keyClick(page.rows, Qt.Key.Key_Space)
    page.foot.note.setText("The left row meets.")
    with qtbot.waitSignal(desk.shown, timeout=20_000):
        qtbot.keyClick(page.foot.note, Qt.Key.Key_Return)
    text = (bench.folder / "pattern.toml").read_text(encoding="utf-8")
    assert "[versions.v2]" in text
    assert 'note = "The left row meets."' in text
    assert page.rows.item(0).text().endswith("in the pattern")
    assert page.versions.lines.item(0).text().startswith("Version 2")
    assert page.said.text().startswith("Kept in version 2 of the pattern")
