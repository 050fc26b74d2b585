"""The other builds of a shop are begun off the window's thread, once it is shown."""

import threading

from armorplan.desktop.beginning import Beginner
from armorplan.kernel.errors import WorkshopError


def begun(bridge, later, qtbot):
    said = []
    bridge.said.connect(said.append)
    beginner = Beginner(bridge, later)
    beginner.begin()
    qtbot.waitUntil(lambda: len(said) == 2)
    assert beginner.close()
    return said


def test_they_are_begun_off_the_thread_and_read_along_then(bridge, qtbot):
    threads, shown = [], []
    bridge.changed.connect(lambda: shown.append(threading.get_ident()))
    said = begun(bridge, lambda _stop: threads.append(threading.get_ident()), qtbot)
    assert threads != [threading.get_ident()]
    assert shown[-1] == threading.get_ident()
    assert said == [
        "The other builds of this shop are being read.",
        "All builds of this shop are read.",
    ]


def test_a_full_disk_is_said(bridge, qtbot):
    def refuse(_stop):
        message = "The disk is full."
        raise WorkshopError(message)

    said = begun(bridge, refuse, qtbot)
    assert said[1] == "The other builds of this shop could not be begun: The disk is full."


def test_closing_the_window_leaves_the_rest_for_another_time(bridge):
    stopped = threading.Event()

    def wait(should_stop):
        while not should_stop():
            stopped.wait(0.005)
        stopped.set()

    beginner = Beginner(bridge, wait)
    beginner.begin()
    assert beginner.close()
    assert stopped.is_set()
