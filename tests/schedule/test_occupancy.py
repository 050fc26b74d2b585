"""What is free while a plan is laid, against looking at every minute."""

from hypothesis import given
from hypothesis import strategies as st

from armorplan.schedule.free_time import FreeTime, PausedTime
from armorplan.schedule.levels import Level
from armorplan.schedule.pauses import end_with_pauses

WINDOWS = ((0, 12), (15, 22), (30, 40))
pieces = st.lists(
    st.tuples(st.integers(0, 38), st.integers(1, 8)).map(lambda p: (p[0], p[0] + p[1])), max_size=8
)
asked = st.tuples(st.integers(0, 40), st.integers(0, 9))


def lasting(minutes):
    return lambda start: start + minutes


@given(pieces, asked)
def test_the_first_fit_is_the_first_minute_all_of_it_is_free(taken, wanted):
    floor, minutes = wanted
    free = FreeTime(WINDOWS)
    for start, end in taken:
        free.take(start, end)
    busy = {m for a, b in taken for m in range(a, b)}

    def fits(start):
        within = any(a <= start and start + minutes <= b for a, b in WINDOWS)
        return within and not busy.intersection(range(start, start + minutes))

    if minutes:
        expected = next((s for s in range(floor, 41) if fits(s)), None)
        assert free.first_fit(floor, lasting(minutes)) == expected


@given(pieces)
def test_giving_back_restores_all(taken):
    free, untouched = FreeTime(WINDOWS), FreeTime(WINDOWS)
    kept = []
    for start, end in taken:
        if free.first_fit(start, lambda s, end=end, start=start: s + end - start) == start:
            free.take(start, end)
            kept.append((start, end))
    for start, end in reversed(kept):
        free.give_back(start, end)
    for floor in range(41):
        for minutes in range(1, 12):
            fit = free.first_fit(floor, lasting(minutes))
            assert fit == untouched.first_fit(floor, lasting(minutes))


def test_work_whose_length_depends_on_its_start():
    free = FreeTime(WINDOWS)
    assert free.first_fit(3, lambda start: 20 if start < 15 else start + 3) == 15


takers = st.lists(st.tuples(st.integers(0, 30), st.integers(0, 9), st.integers(1, 2)), max_size=8)


@given(takers, asked, st.integers(1, 3))
def test_a_level_fits_where_every_minute_has_room(taken, wanted, amount):
    floor, minutes = wanted
    level = Level(3)
    for start, length, used in taken:
        level.take(start, start + length, used)

    def fits(start):
        return all(
            sum(used for s, length, used in taken if s <= m < s + length) + amount <= 3
            for m in range(start, start + minutes)
        )

    expected = next(s for s in range(floor, 100) if fits(s))
    assert level.first_fit(floor, lasting(minutes), amount) == expected


@given(takers)
def test_a_level_given_back_is_empty(taken):
    level = Level(3)
    for start, length, used in taken:
        level.take(start, start + length, used)
    for start, length, used in taken:
        level.give_back(start, start + length, used)
    assert level.first_fit(0, lasting(60), 3) == 0


def test_more_than_a_resource_holds_never_fits():
    assert Level(2).first_fit(0, lasting(1), 3) is None


@given(pieces, st.integers(0, 40), st.integers(1, 22), st.integers(1, 6))
def test_work_with_pauses_starts_at_the_first_minute_with_all_its_hours_free(
    taken, floor, minutes, sitting
):
    hands = FreeTime(WINDOWS)
    for start, end in taken:
        hands.take(start, end)
    busy = {m for a, b in taken for m in range(a, b)}
    hours = {m for a, b in WINDOWS for m in range(a, b)} - busy

    def fits(start):
        end = end_with_pauses(minutes, start, WINDOWS, sitting)
        return end is not None and all(
            m in hours for a, b in WINDOWS for m in range(max(a, start), min(b, end))
        )

    expected = next((s for s in range(floor, 41) if fits(s)), None)
    assert PausedTime(WINDOWS, hands, minutes, sitting).first_fit(floor) == expected


@given(pieces, st.integers(1, 22), st.integers(1, 6), st.integers(0, 45))
def test_work_with_pauses_that_ends_too_early_is_moved_no_further_than_needed(
    taken, minutes, sitting, target
):
    hands = FreeTime(WINDOWS)
    for start, end in taken:
        hands.take(start, end)
    paused = PausedTime(WINDOWS, hands, minutes, sitting)

    def starts(floor):
        while (floor := paused.first_fit(floor)) is not None:
            yield floor
            floor += 1

    expected = next((s for s in starts(0) if paused.ends(s) >= target), None)
    start = paused.first_fit(0)
    while start is not None and paused.ends(start) < target:
        start = paused.first_fit(paused.later(start, paused.ends(start), target))
    assert start == expected
