"""Backups in the window: listed, tried on a copy, put in place, and noticed by the window itself."""

from datetime import UTC

import pytest
from clocks import FakeClock
from desktop.test_reading_along import FakeTurn
from store.shelf_of_builds import ELBOW, entry

from armorplan.cli.kept_workshop import Backups, opened_workshop
from armorplan.desktop import rescue
from armorplan.desktop.backup_watch import BackupWatch
from armorplan.desktop.opening import Opener
from armorplan.desktop.reading_along import ReadingAlong
from armorplan.desktop.restore_desk import RestoreDesk
from armorplan.desktop.widgets.restore_page import RestorePage
from armorplan.kernel.errors import WorkshopError
from armorplan.store.backing_up import back_up
from armorplan.store.backups import BackupKind
from armorplan.store.gate import OPEN
from armorplan.store.workshop_file import WorkshopFile


@pytest.fixture
def bench(tmp_path):
    """A workshop with a backup of one entry, and three more since."""
    path, clock = tmp_path / "workshop.sqlite", FakeClock()
    workshop = WorkshopFile.open(path, clock)
    workshop.add_build(ELBOW)
    workshop.append((entry(1),))
    back_up(path, BackupKind.DAILY, clock)
    clock.advance(3600)
    workshop.append((entry(2), entry(3), entry(4)))
    yield Backups(path=path, clock=clock, gate=OPEN, workshop=workshop)
    workshop.close()


@pytest.fixture
def desk(qtbot, bench):
    made = RestoreDesk(bench, UTC)
    yield made
    assert made.close()


@pytest.fixture
def page(qtbot, desk):
    with qtbot.waitSignal(desk.rehearsed, timeout=5000):
        made = RestorePage(desk)
        qtbot.addWidget(made)
    return made


def entries(bench):
    return [event.seq for event in bench.workshop.events(ELBOW.id)]


def test_the_latest_is_tried_at_once_and_what_would_be_lost_is_told(page):
    assert page.list.item(0).text() == "01 Mar 2027 09:00 – each day"
    told = page.told.toPlainText()
    assert "restored on a copy, on trial" in told
    assert "It holds 1 build, 1 entry of the ledger." in told
    assert f"It lacks 3 entries of '{ELBOW.name}'." in told
    assert "The first of those entries is of 01 Mar 2027 09:00." in told
    assert page.put_in_place.isEnabled()


def test_it_is_put_in_place_with_one_press_and_can_be_taken_back(qtbot, page, desk, bench):
    with qtbot.waitSignals([desk.restored, desk.rehearsed], timeout=5000):
        page.put_in_place.click()
    assert entries(bench) == [1]
    kinds = [page.list.item(row).text() for row in range(page.list.count())]
    assert [kind.partition(" – ")[2] for kind in kinds] == ["before a restoring", "each day"]
    assert "Restored: the workshop as of 01 Mar 2027 09:00" in page.told.toPlainText()
    # The latest is what stood there before: once more, and all is as it was.
    assert page.list.currentRow() == 0
    assert "Nothing would be lost" in page.told.toPlainText()
    with qtbot.waitSignals([desk.restored, desk.rehearsed], timeout=5000):
        page.put_in_place.click()
    assert entries(bench) == [1, 2, 3, 4]


def test_a_damaged_backup_is_told_and_cannot_be_put_in_place(qtbot, page, desk, bench):
    (backup,) = bench.backups()
    backup.path.write_bytes(b"x" * 5000)
    with qtbot.waitSignal(desk.refused, timeout=5000):
        desk.rehearse(backup)
    assert not page.put_in_place.isEnabled()
    assert "choose another backup" in page.told.toPlainText()


def test_a_workshop_without_backups_says_so(qtbot, tmp_path):
    desk = RestoreDesk(Backups(path=tmp_path / "none", clock=FakeClock(), gate=OPEN), UTC)
    with qtbot.waitSignal(desk.listed, timeout=5000):
        page = RestorePage(desk)
        qtbot.addWidget(page)
    assert "There is no backup yet" in page.told.toPlainText()
    assert not page.put_in_place.isEnabled()
    assert desk.close()


class Watched:
    """A window's watch over its backups, with what it opened and said."""

    def __init__(self, bridge, bench, turn):
        self.opened, self.said = [], []
        bridge.said.connect(self.said.append)
        opener = Opener(bridge, lambda *_: None)
        opener.open_build = self.opened.append
        self.watch = BackupWatch(bridge, bench, ReadingAlong(bridge, turn), opener)


def test_the_window_that_writes_backs_up_once_a_day(qtbot, bridge, bench, clock):
    turn = FakeTurn(writes=True)
    watched = Watched(bridge, bench, turn)
    watched.watch.look()
    assert watched.watch.close()
    assert len(bench.backups()) == 1
    bench.clock.advance(24 * 3600)
    clock.advance(24 * 60)
    with qtbot.waitSignal(watched.watch.made, timeout=5000):
        watched.watch.look()
    watched.watch.look()
    assert watched.watch.close()
    assert len(bench.backups()) == 2


def test_a_window_that_reads_along_makes_none_until_it_writes(qtbot, bridge, bench):
    bench.clock.advance(24 * 3600)
    turn = FakeTurn()
    watched = Watched(bridge, bench, turn)
    watched.watch.look()
    assert watched.watch.close()
    assert len(bench.backups()) == 1
    turn.writes = True
    with qtbot.waitSignal(watched.watch.made, timeout=5000):
        watched.watch.look()
    assert watched.watch.close()


def test_a_backup_that_cannot_be_made_is_said(qtbot, bridge, bench, monkeypatch):
    def full(_self):
        message = "The disk is full."
        raise WorkshopError(message)

    monkeypatch.setattr(Backups, "back_up_today", full)
    watched = Watched(bridge, bench, FakeTurn(writes=True))
    watched.watch.look()
    qtbot.waitUntil(lambda: bool(watched.said))
    assert watched.said == ["There is no backup of today: The disk is full."]
    assert watched.watch.close()


def test_a_window_reads_anew_what_was_put_in_place(bridge, bench):
    watched = Watched(bridge, bench, FakeTurn())
    watched.watch.look()
    assert watched.opened == []
    bench.restore(bench.backups()[0])
    watched.watch.look()
    watched.watch.look()
    assert watched.opened == [bridge.session.build_id]
    assert len(watched.said) == 1


def spoil(path):
    content = bytearray(path.read_bytes())
    page = int.from_bytes(content[16:18], "big")
    content[3 * page : 4 * page] = b"\xa5" * page
    path.write_bytes(content)


def test_a_damaged_workshop_is_rescued_before_the_window_opens(bench, monkeypatch):
    bench.workshop.close()
    spoil(bench.path)
    asked = []

    def rescued(offered, why, _zone):
        asked.append(why)
        offered.restore(offered.backups()[0])
        return True

    monkeypatch.setattr(rescue, "offer_backups", rescued)
    opened_workshop(bench)
    assert "is damaged" in asked[0]
    assert entries(bench) == [1]


def test_where_nothing_is_put_in_place_the_damage_is_told(bench, monkeypatch):
    bench.workshop.close()
    spoil(bench.path)
    monkeypatch.setattr(rescue, "offer_backups", lambda *_: False)
    with pytest.raises(WorkshopError, match="is damaged"):
        opened_workshop(bench)
    bench.backups()[0].path.unlink()
    monkeypatch.delattr(rescue, "offer_backups")
    with pytest.raises(WorkshopError, match="is damaged"):
        opened_workshop(bench)


def test_the_page_of_the_rescue_ends_with_the_restoring(qtbot, bench, monkeypatch, tmp_path):
    monkeypatch.setattr(rescue, "settings_file", lambda: tmp_path / "settings.json")
    pages = []

    def run(_app):
        # What a maker does: wait for the trial, press the button.
        (page,) = pages
        qtbot.waitUntil(page.put_in_place.isEnabled)
        assert page.why.text() == "The workshop is damaged."
        page.put_in_place.click()
        qtbot.waitUntil(page.isHidden)
        return 0

    monkeypatch.setattr(
        rescue, "RestorePage", lambda *a, **k: pages.append(RestorePage(*a, **k)) or pages[0]
    )
    monkeypatch.setattr("PySide6.QtWidgets.QApplication.exec", run)
    monkeypatch.setattr(rescue, "make_application", lambda _s: type("App", (), {"exec": run})())
    assert rescue.offer_backups(bench, "The workshop is damaged.", UTC)
    assert entries(bench) == [1]
    pages[0].deleteLater()
