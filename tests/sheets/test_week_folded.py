"""Steps of one kind that follow each other become one line of a calendar."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from armorplan.sheets.week_folded import folded
from armorplan.sheets.week_table import PlanLine, WeekTable

AT = datetime(2026, 12, 7, 9, 0, tzinfo=UTC)


def line(name, start, minutes=4, *, work="cop-1/cop/single/rivet", who="Maker", **more):
    start_at = AT + timedelta(minutes=start)
    return PlanLine(
        id=f"{work}/{name}",
        step=f"{work}/{name}",
        title=f"Rivet {name}",
        build="cop-1",
        build_title="Cop",
        start_at=start_at,
        end_at=start_at + timedelta(minutes=minutes),
        who=who,
        **more,
    )


def table(*lines):
    return WeekTable(title="Week", zone="UTC", sentence="", builds=(), lines=lines)


def told(*lines):
    return [(one.title, one.id, one.minutes) for one in folded(table(*lines)).lines]


def test_a_row_is_one_stretch_of_work():
    row = [line(f"row_{at}", 4 * at) for at in range(7)]
    assert told(*row) == [("Rivet row_0, and 6 more", "cop-1/cop/single/rivet/stretch 1", 28)]
    (one,) = folded(table(*row)).lines
    assert one.note.splitlines() == [f"Rivet row_{at}" for at in range(7)]


def test_what_comes_between_or_a_longer_break_parts_it():
    one, two, three = line("a", 0), line("b", 4), line("c", 30)
    assert [n for _, n, _ in told(one, two, three)] == [
        "cop-1/cop/single/rivet/stretch 1",
        "cop-1/cop/single/rivet/stretch 2",
    ]
    other = line("x", 4, work="collar-1/collar/single/dye")
    assert len(told(one, other, line("b", 8))) == 3


def test_windows_dryings_and_other_hands_keep_their_own_lines():
    windowed = line("b", 4, begin_by_at=AT + timedelta(minutes=9))
    dries = replace(line("c", 4), who="")
    hers = line("d", 4, who="Apprentice")
    found = told(line("a", 0), windowed, dries, hers, line("e", 8))
    assert len(found) == 5
    assert {"cop-1/cop/single/rivet/b", "cop-1/cop/single/rivet/c"} <= {n for _, n, _ in found}


def test_a_stretch_keeps_its_name_when_the_plan_moves():
    row = [line(f"row_{at}", 4 * at) for at in range(3)]
    later = [line(f"row_{at}", 600 + 4 * at) for at in (1, 0, 2)]
    assert [n for _, n, _ in told(*row)] == [n for _, n, _ in told(*later)]


def test_a_stretch_keeps_what_names_its_build_in_the_world():
    row = [line(f"row_{at}", 4 * at, known_as=f"harbour/rivet/row_{at}") for at in range(3)]
    again = [line(f"row_{at}", 4 * at, known_as=f"harbour/rivet/row_{at}") for at in (1, 2)]
    for lines in (row, again):
        (one,) = folded(table(*lines)).lines
        assert one.known_as == "harbour/rivet/stretch 1"
