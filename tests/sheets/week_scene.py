"""A small plan as a table: two builds, a damp window, a drying over a night, a wearer."""

from datetime import UTC, datetime, timedelta

from armorplan.sheets.week_table import BuildLine, PlanLine, WeekTable

NOW_AT = datetime(2027, 3, 1, 7, 30, tzinfo=UTC)


def at(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2027, 3, day, hour, minute, tzinfo=UTC)


CASE = PlanLine(
    id="cop-1/shell/left/case/shell",
    step="cop-1/shell/left/case/shell",
    title="Case shell for forming",
    build="cop-1",
    build_title="Cop of the mole, größer; 1",
    start_at=at(1, 8),
    end_at=at(1, 8, 30),
    who="Apprentice",
)
FORM = PlanLine(
    id="cop-1/shell/left/form/shell",
    step="cop-1/shell/left/form/shell",
    title="Bend shell while damp",
    build="cop-1",
    build_title=CASE.build_title,
    start_at=at(1, 8, 45),
    end_at=at(1, 9, 5),
    who="Maker",
    begin_from_at=at(1, 8, 40),
    begin_by_at=at(1, 9, 30),
    why="It bends only while damp.",
)
DRY = PlanLine(
    id="cop-1/shell/left/dry/shell",
    step="cop-1/shell/left/dry/shell",
    title="Dry the damp-formed shell",
    build="cop-1",
    build_title=CASE.build_title,
    start_at=at(1, 9, 5),
    end_at=at(2, 10),
    surely_at=at(2, 16),
    note="ready Tue 10:00, likely",
)
FIT = PlanLine(
    id="=collar-1/collar/fit",
    step="=collar-1/collar/fit",
    title="Fit Collar on the wearer",
    build="=collar-1",
    build_title="=Collar",
    start_at=at(2, 15),
    end_at=at(2, 15, 20),
    who="Maker",
    also=("Captain",),
    bath="Blue tray",
)
PAIR = PlanLine(
    id="cop-1/shell/left/rivet/row_1",
    step="cop-1/shell/left/rivet/row_1",
    title="Set rivet row_1",
    build="cop-1",
    build_title=CASE.build_title,
    start_at=at(1, 8, 30),
    end_at=at(1, 8, 40),
    who="Apprentice",
    also=("Maker",),
    beside=("Maker",),
)


def table(*lines: PlanLine) -> WeekTable:
    return WeekTable(
        title="Lantern week",
        zone="Europe/Lisbon",
        sentence="This plan holds.",
        builds=(
            BuildLine(
                id="cop-1",
                title=CASE.build_title,
                due_at=at(3, 17),
                finish_at=at(2, 10),
                weight=2,
            ),
            BuildLine(
                id="=collar-1",
                title="=Collar",
                due_at=at(2, 15),
                finish_at=at(2, 15, 20),
                late_min=20,
            ),
        ),
        lines=lines or (CASE, FORM, DRY, FIT),
        notes=("Most solvent at a time: none.",),
    )


def later(line: PlanLine, minutes: int) -> PlanLine:
    from dataclasses import replace

    by = timedelta(minutes=minutes)
    return replace(line, start_at=line.start_at + by, end_at=line.end_at + by)
