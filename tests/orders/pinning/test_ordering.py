"""The order of pins: nothing in the air, what cannot be last is not, what never goes in is told."""

from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.orders.pinning.ordering import count_pieces, order_of_pins


def always(_pin, _others):
    return True


def places(pins):
    return {pin: at for at, pin in enumerate(pins)}


def test_each_pin_holds_on_to_what_is_held():
    parts = {"ab": {"a", "b"}, "cd": {"c", "d"}, "bc": {"b", "c"}}
    order = order_of_pins(parts, always, places(parts)).order
    assert all(count_pieces(parts, set(order[:upto])) == 1 for upto in range(1, 4))


def test_what_a_cover_hides_goes_in_first():
    def seen(pin, others):
        return pin != "under" or "boss" not in others

    parts = {"boss": {"a", "b"}, "under": {"a", "c"}}
    assert order_of_pins(parts, seen, places(parts)).order == ("under", "boss")


def test_what_goes_in_at_no_time_keeps_no_other_out():
    """The deep one is given up; the far one goes in while it is not in."""

    def goes_in(pin, others):
        return pin != "deep" and not (pin == "far" and "deep" in others)

    parts = {"deep": {"a"}, "far": {"a"}}
    found = order_of_pins(parts, goes_in, {"far": 2, "deep": 1})
    assert (found.order, found.stuck) == (("far", "deep"), {"deep"})


def test_what_goes_in_in_no_order_is_told():
    def never_first(pin, _others):
        return pin != "deep"

    parts = {"deep": {"a"}, "near": {"a"}}
    found = order_of_pins(parts, never_first, places(parts))
    assert found.stuck == {"deep"}
    assert set(found.order) == {"deep", "near"}


@settings(max_examples=25)
@given(st.dictionaries(st.sampled_from("abcdef"), st.sets(st.sampled_from("abcdef")), min_size=1))
def test_an_order_is_found_where_there_is_one(shut_by):
    """A pin is shut out once all of its set are in: more pins never let it in again."""
    shut = {pin: by - {pin} for pin, by in shut_by.items()}

    def goes_in(pin, others):
        return not shut[pin] or not shut[pin] <= others

    parts = {pin: {"one"} for pin in shut}
    found = order_of_pins(parts, goes_in, places(sorted(parts)))
    assert sorted(found.order) == sorted(parts)
    before = {pin: frozenset(found.order[:at]) for at, pin in enumerate(found.order)}
    assert all(goes_in(pin, before[pin]) for pin in parts if pin not in found.stuck)
    assert found.stuck or all(goes_in(pin, before[pin]) for pin in parts)
