"""What comes one by one is told as it comes, and a stop is never waited for."""

from threading import Event
from time import monotonic

import pytest

from armorplan.schedule.flowing import Flow, HaltedError, until


def test_all_that_is_told_comes_in_order():
    def work(flow):
        for each in "abc":
            flow.tell(each)

    flow = Flow(work, lambda: False)
    assert list(flow) == ["a", "b", "c"]
    assert not flow.is_cut


def test_a_stop_does_not_wait_for_what_is_being_reckoned():
    hangs, ended = Event(), Event()

    def work(flow):
        flow.tell("first")
        hangs.wait(20)
        try:
            flow.go_on()
        except HaltedError:
            ended.set()
            raise

    flow, began = Flow(work, until(0.1, lambda: False)), monotonic()
    assert list(flow) == ["first"]
    assert monotonic() - began < 5
    assert flow.is_cut
    hangs.set()
    assert ended.wait(5)


def test_the_one_who_waits_hears_of_a_fault():
    def work(_flow):
        message = "broken"
        raise ValueError(message)

    with pytest.raises(ValueError, match="broken"):
        list(Flow(work, lambda: False))
