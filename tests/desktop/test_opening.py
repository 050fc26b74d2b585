"""Another pattern is read off the window's thread; one that cannot be read changes nothing."""

import threading
from pathlib import Path

import pytest
from desktop.fake_session import FakeSession

from armorplan.desktop.opening import Opener
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Severity

NO_SVG = Finding(
    code="no-outlines",
    severity=Severity.ERROR,
    text="The folder holds no SVG.",
    remedy="Put the outlines beside pattern.toml.",
)


@pytest.fixture
def threads():
    return {}


@pytest.fixture
def opener(bridge, threads):
    def reader(folder: Path, _going_on: str):
        threads["read"] = threading.get_ident()
        if folder.name == "broken":
            raise UnreadableError((NO_SVG,))

        def ready():
            threads["made"] = threading.get_ident()
            return FakeSession.of(10)

        return ready

    made = Opener(bridge, reader)
    yield made
    assert made.close()


def test_reading_is_off_thread_and_the_session_is_made_in_it(opener, bridge, threads, qtbot):
    with qtbot.waitSignal(bridge.opened):
        opener.open(Path("collar"))
    assert threads["made"] == threading.get_ident() != threads["read"]
    assert len(bridge.session.steps) == 10


def test_a_broken_folder_is_told_and_the_build_stays(opener, bridge, session, qtbot):
    said = []
    bridge.said.connect(said.append)
    with qtbot.waitSignal(opener.refused) as refused:
        opener.open(Path("broken"))
    assert refused.args == ["broken", (NO_SVG,)]
    assert bridge.session is session
    assert said[-1].startswith("Not opened: broken. error: The folder holds no SVG.")


def test_without_a_workshop_another_build_is_not_opened_and_it_is_said(opener, bridge, session):
    said = []
    bridge.said.connect(said.append)
    opener.open_build("collar-2", "collar-2/collar/cut/strap")
    assert said == ["There is no workshop here to open collar-2."]
    assert bridge.session is session
