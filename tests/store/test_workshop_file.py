"""What goes into the workshop file comes out of it."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone

import pytest
from clocks import FakeClock
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from store.shelf_of_builds import ELBOW, entry

from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.events import Event, EventKind
from armorplan.store.workshop_file import WorkshopFile


@pytest.fixture
def path(tmp_path):
    return tmp_path / "workshop.sqlite"


@pytest.fixture
def workshop(path):
    opened = WorkshopFile.open(path, FakeClock())
    yield opened
    opened.close()


@pytest.fixture
def with_build(workshop):
    workshop.add_build(ELBOW)
    return workshop


def test_a_new_workshop_is_empty(workshop):
    assert workshop.builds() == ()
    assert workshop.events("elbow_cop-1") == ()
    assert workshop.last_plan("elbow_cop-1") is None


def test_opening_makes_the_folder(tmp_path):
    deep = tmp_path / "data" / "armorplan" / "workshop.sqlite"
    workshop = WorkshopFile.open(deep, FakeClock())
    assert workshop.path == deep
    assert deep.is_file()
    workshop.close()


def test_a_build_comes_back_with_every_letter_of_its_snapshot(with_build, path):
    with_build.close()
    again = WorkshopFile.open(path, FakeClock())
    assert again.build(ELBOW.id) == ELBOW
    assert again.builds() == (ELBOW,)
    again.close()


def test_a_build_comes_with_its_first_entries_or_not_at_all(workshop):
    carried = replace(ELBOW, folder="/shelf/elbow cop")
    with pytest.raises(WorkshopError, match="no such build"):
        workshop.add_build(carried, (entry(1), entry(2, build="gorget-1")))
    assert workshop.builds() == ()
    workshop.add_build(carried, (entry(1), entry(2)))
    assert workshop.builds() == (carried,)
    assert [event.batch for event in workshop.events(ELBOW.id)] == ["press-1", "press-2"]


def test_builds_come_as_they_were_begun_by_a_clock_set_back_too(with_build):
    later = replace(ELBOW, id="collar-1", created_at=ELBOW.created_at - timedelta(days=1))
    with_build.add_build(later)
    assert [build.id for build in with_build.builds()] == ["elbow_cop-1", "collar-1"]
    assert list(with_build.names()) == ["elbow_cop-1", "collar-1"]


def test_builds_of_a_pattern_are_named_by_its_uuid(with_build):
    other = "00000000-0000-0000-0000-000000000001"
    with_build.add_build(replace(ELBOW, id="elbow_cop-2", name="second"))
    with_build.add_build(replace(ELBOW, id="collar-1", pattern_uuid=other))
    assert list(with_build.names_of(ELBOW.pattern_uuid)) == ["elbow_cop-1", "elbow_cop-2"]
    assert list(with_build.names_of(other)) == ["collar-1"]
    assert with_build.names_of("no such") == {}


def test_the_latest_plan_is_the_one_kept_last_by_a_clock_set_back_too(tmp_path):
    clock = FakeClock()
    workshop = WorkshopFile.open(tmp_path / "workshop.sqlite", clock)
    for build in (ELBOW, replace(ELBOW, id="collar-1")):
        workshop.add_build(build)
    workshop.save_plan("collar-1", "first")
    workshop.save_plan(ELBOW.id, "second")
    clock.set_back(3600)
    workshop.save_plan("collar-1", "third")
    assert workshop.latest_plan() == workshop.last_plan("collar-1") == "third"
    assert workshop.last_plan(ELBOW.id) == "second"
    workshop.close()


def test_an_id_can_be_given_once_only(with_build):
    with pytest.raises(WorkshopError, match="already a build of this id"):
        with_build.add_build(replace(ELBOW, name="another"))
    assert with_build.build(ELBOW.id) == ELBOW


def test_an_unknown_build_is_answered_with_those_there_are(with_build):
    with pytest.raises(WorkshopError, match=r"no build 'gorget-1'\. It has: elbow_cop-1\."):
        with_build.build("gorget-1")


def test_an_entry_for_an_unknown_build_is_refused_in_words(with_build, path):
    with pytest.raises(WorkshopError, match="no such build") as refused:
        with_build.append((entry(1), entry(2, build="gorget-1")))
    assert str(path) in str(refused.value)
    assert with_build.events(ELBOW.id) == ()


def test_entries_come_back_numbered_and_ascending(with_build):
    stored = with_build.append((entry(1), entry(2))) + with_build.append((entry(3),))
    assert [event.seq for event in stored] == [1, 2, 3]
    assert [replace(event, seq=0) for event in stored] == [entry(1), entry(2), entry(3)]
    assert with_build.events(ELBOW.id) == stored
    assert with_build.append(()) == ()


def test_entries_of_one_build_are_apart_from_anothers(with_build):
    with_build.add_build(replace(ELBOW, id="collar-1"))
    with_build.append((entry(1), entry(2, build="collar-1"), entry(3)))
    assert [event.seq for event in with_build.events(ELBOW.id)] == [1, 3]
    assert [event.seq for event in with_build.events("collar-1")] == [2]


def test_a_second_window_reads_along(with_build, path):
    other = WorkshopFile.open(path, FakeClock())
    mine = with_build.append((entry(1), entry(2)))
    assert other.events_since(ELBOW.id, 0) == mine
    theirs = other.append((entry(3),))
    assert with_build.events_since(ELBOW.id, mine[-1].seq) == theirs
    assert with_build.events_since(ELBOW.id, theirs[-1].seq) == ()
    other.close()


def test_only_the_last_plan_is_kept(with_build):
    with_build.save_plan(ELBOW.id, '{"steps": []}')
    with_build.save_plan(ELBOW.id, '{"steps": ["é"]}')
    assert with_build.last_plan(ELBOW.id) == '{"steps": ["é"]}'


def test_an_instant_of_another_zone_comes_back_as_the_same_instant(with_build):
    east = timezone(timedelta(hours=9))
    local = replace(entry(1), at=datetime(2027, 3, 1, 18, 0, tzinfo=east))
    (stored,) = with_build.append((local,))
    (read,) = with_build.events(ELBOW.id)
    assert read == stored
    assert read.at.tzinfo is UTC


def test_an_instant_without_a_zone_is_a_fault_of_the_caller(with_build):
    naive = replace(entry(1), at=entry(1).at.replace(tzinfo=None))
    with pytest.raises(ValueError, match="without a zone"):
        with_build.append((naive,))
    assert with_build.events(ELBOW.id) == ()


def test_a_text_that_no_file_can_hold_is_refused_in_words(with_build):
    with pytest.raises(WorkshopError, match="character that cannot be stored"):
        with_build.append((entry(1), replace(entry(2), text="half a pair: \ud83d")))
    assert with_build.events(ELBOW.id) == ()


def test_a_closed_file_says_so(path):
    workshop = WorkshopFile.open(path, FakeClock())
    workshop.close()
    with pytest.raises(WorkshopError, match="closed"):
        workshop.builds()


ENTRIES = st.builds(
    Event,
    build=st.just(ELBOW.id),
    step=st.text(),
    kind=st.sampled_from(EventKind),
    at=st.datetimes(timezones=st.just(UTC)),
    boot_id=st.text(),
    boot_s=st.floats(min_value=0, allow_infinity=False),
    batch=st.text(),
    who=st.text(),
    text=st.text(),
    undoes=st.none() | st.text(),
)


@settings(
    deadline=None, max_examples=50, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(entries=st.lists(ENTRIES, max_size=4))
def test_any_entry_comes_back_as_it_went_in(with_build, entries):
    before = with_build.events(ELBOW.id)
    stored = with_build.append(tuple(entries))
    assert [replace(event, seq=0) for event in stored] == entries
    assert with_build.events(ELBOW.id) == before + stored
