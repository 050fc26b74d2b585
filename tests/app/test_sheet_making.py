"""The bench sheet of a sample: every step once, its joints numbered, its dates those of the plan."""

from collections import Counter
from datetime import timedelta

import pytest
from clocks import FakeClock

from armorplan.app.sheet_making import SheetAsked, bench_sheet
from armorplan.app.sheet_times import number_ranges, times_of
from armorplan.sheets.week_table import BuildLine, PlanLine, WeekTable
from armorplan.steps.model import StepKind

CLOCK = FakeClock()
_A_PIN = ", a pin for the dry fit"


@pytest.fixture(scope="module")
def made(pairs):
    return bench_sheet(SheetAsked(derived=pairs, build="three_lames", full_size=True), CLOCK)


def runs_of(sheet):
    return [run for chapter in sheet.chapters for run in chapter.runs]


def test_every_step_stands_on_it_once_in_order_with_a_box_or_a_clock(pairs, made):
    lines = [line for run in runs_of(made) for line in run.lines]
    numbers = [int(n) for line in lines for n in line.number.split(", ")]
    assert sorted(numbers) == list(range(1, len(pairs.order) + 1))
    firsts = [int(line.number.split(", ")[0]) for line in lines]
    assert firsts == sorted(firsts)
    attended = [pairs.work.step(step).attended for step in pairs.order]
    for line in lines:
        named = [int(n) for n in line.number.split(", ")]
        assert bool(line.boxes) == attended[named[0] - 1]
        assert len(named) == max(1, len(line.boxes)) or not line.boxes


def test_left_and_right_stand_together_only_where_they_are_alike(pairs, made):
    lines = [line for run in runs_of(made) for line in run.lines]
    both = [line for line in lines if line.boxes == ("L", "R")]
    assert len(both) > 50
    for line in both:
        one, other = (pairs.work.step(pairs.order[int(n) - 1]) for n in line.number.split(", "))
        assert (one.side.value, other.side.value) == ("left", "right")
        assert one.title.replace("(left)", "(right)") == other.title
        assert "(left)" not in line.title
        assert line.spent.startswith("2 × ")


def test_what_a_run_sets_is_numbered_at_its_holes_and_cut_through(pairs, made):
    run = next(r for r in runs_of(made) if r.stacks and r.scene)
    marks = {hole.mark for part in run.scene.parts for hole in part.holes} - {""}
    lefts = {line.number.split(", ")[0] for line in run.lines}
    assert marks == lefts
    assert {n for stack in run.stacks for n in stack.where.split(" ", 1)[1].split(", ")} <= lefts


def test_cautions_are_told_in_full_once_and_found_again(made):
    runs = runs_of(made)
    full = {line.number.split(", ")[0]: run for run in runs for line in run.lines[:1]}
    assert any(run.cautions_at for run in runs)
    for run in runs:
        assert not (run.cautions and run.cautions_at)
        if run.cautions_at:
            assert full[run.cautions_at].cautions


def test_no_step_with_a_caution_stands_in_a_run_without(pairs, made):
    for run in runs_of(made):
        numbers = [int(n) for line in run.lines for n in line.number.split(", ")]
        warned = any(pairs.work.step(pairs.order[n - 1]).cautions for n in numbers)
        assert warned == bool(run.cautions or run.cautions_at)


def test_chapters_follow_the_work_and_the_dry_fit_is_led_through(made):
    assert [chapter.title for chapter in made.chapters] == [
        "Paper, cutting and edges",
        "Shaping, colour and finish",
        "Dry fit",
        "Joined for good",
        "Last fit and packing",
    ]
    (fit,) = (fit for run in made.chapters[2].runs for fit in run.fits)
    assert fit.boxes == ("L", "R")
    assert fit.lay_out
    assert fit.rounds


def test_the_right_part_is_the_mirror_image_of_the_left_at_full_size(made):
    left = next(part for part in made.full if part.side == "left" and part.holes)
    right = next(p for p in made.full if p.side == "right" and p.name == left.name)
    axis = left.outline[0][0] + right.outline[0][0]
    assert all(
        a[0] + b[0] == pytest.approx(axis) and a[1] == b[1]
        for a, b in zip(left.outline, right.outline, strict=True)
    )
    assert all(
        a.centre[0] + b.centre[0] == pytest.approx(axis)
        for a, b in zip(left.holes, right.holes, strict=True)
    )
    assert (left.up_deg + right.up_deg) % 360 == 180


def test_each_part_at_full_size_is_as_large_as_the_pattern_draws_it(pairs, made):
    assert len(made.full) == len(pairs.assembly.parts)
    for part in made.full:
        own = next(p for p in pairs.pattern.parts if p.name == part.name)
        for axis in (0, 1):
            drawn = [point[axis] for point in part.outline]
            meant = [point[axis] for point in own.outline]
            assert max(drawn) - min(drawn) == pytest.approx(max(meant) - min(meant))
        assert len(part.holes) == sum(not hole.travel_mm for hole in own.holes)
        face = "grain" if own.grain_out != own.drawn_from_inside else "flesh"
        assert f"{face} side up" in part.words


def texts_of(sheet):
    """Yield all words of a sheet's tables and runs."""
    for table in sheet.needs:
        for row in table.rows:
            yield from (*row.cells, *row.remarks)
    for run in runs_of(sheet):
        yield from (run.tools, *(line.detail for line in run.lines))


def test_what_is_bought_for_the_dry_fit_is_what_its_rounds_ask_for(made):
    (fit,) = (fit for run in runs_of(made) for fit in run.fits)
    asked = [
        Counter(pin.split(": ", 1)[1] for pin in one.pins if "may be left out" not in pin)
        for one in fit.rounds
    ]
    fasteners = next(table for table in made.needs if table.title == "Fasteners")
    bought = {
        row.cells[0].removesuffix(_A_PIN): int(row.cells[1])
        for row in fasteners.rows
        if row.cells[0].endswith(_A_PIN)
    }
    assert bought
    assert bought == {name: max(one[name] for one in asked) for name in sum(asked, Counter())}
    assert not any("split pins for" in text for text in texts_of(made))


def test_a_dry_fit_stands_right_below_its_step(pairs, made):
    (run,) = (run for run in runs_of(made) if run.fits)
    (line,) = run.lines
    kinds = {pairs.work.step(pairs.order[int(n) - 1]).kind for n in line.number.split(", ")}
    assert kinds == {StepKind.DRY_FIT}
    assert "what to look at: right after this step" in line.detail
    assert run.tools == ""


def test_details_are_sentences_and_say_nothing_twice(made):
    for run in runs_of(made):
        for line in run.lines:
            assert line.detail[:1] == line.detail[:1].upper()
            assert not line.detail or line.detail not in line.title


def _line(step, start, **more):
    at = CLOCK.now() + timedelta(minutes=start)
    return PlanLine(
        id=step,
        step=step,
        title=step,
        build="cop",
        build_title="Cop",
        start_at=at,
        end_at=at + timedelta(minutes=30),
        who="Maker",
        **more,
    )


def test_times_are_those_of_the_plan_for_this_build_alone(pairs):
    form = next(s for s in pairs.work.steps if s.kind is StepKind.FORM)
    own = form.id.partition("/")[2]
    opens = CLOCK.now() + timedelta(minutes=5)
    lines = (
        _line(f"cop/{own}", 10, begin_from_at=opens, begin_by_at=opens + timedelta(minutes=20)),
        _line(f"other/{own}", 400),
    )
    table = WeekTable(
        title="", zone="UTC", sentence="", builds=(BuildLine(id="cop", title="Cop"),), lines=lines
    )
    times = times_of(table, "cop", "UTC")
    start = lines[0].start_at
    assert times.span([form]).startswith(f"{start:%a} {start.day} {start:%b %H:%M} – ")
    assert times.window(form).startswith(f"Begin between {opens:%a} {opens.day} ")
    assert times_of(None, "cop", "UTC").span([form]) == ""


def test_a_sheet_without_a_plan_tells_no_dates(made):
    assert not made.days
    assert not any(run.when for run in runs_of(made))
    assert "Planned" not in dict(made.facts)


def test_numbers_are_told_in_ranges():
    assert number_ranges([3, 1, 2, 7, 9, 10]) == "1 to 3, 7, 9, 10"
    assert number_ranges([]) == ""
