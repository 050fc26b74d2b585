"""``armorplan drill --pdf``: exercises and answers on paper, or the page of somebody's progress."""

from argparse import Namespace
from typing import TYPE_CHECKING

from armorplan.app.derived import Derived
from armorplan.app.drills.source import DrillSource
from armorplan.app.practice_asked import USUAL_COUNT, SheetAsked
from armorplan.cli.drill_asked import asked_plainly
from armorplan.cli.exits import CLEAN
from armorplan.cli.reading import say
from armorplan.kernel.errors import ArmorplanError

if TYPE_CHECKING:
    from armorplan.cli.drill_person import Practice
    from armorplan.sheets.bench_sheet_ink import Paper


def check_paper(chosen: Namespace) -> None:
    """Refuse what does not go with paper.

    Raises:
        ArmorplanError: options that stand in each other's way, or no such place for the file.
    """
    if chosen.pdf is None:
        if chosen.count is not None:
            raise ArmorplanError(
                "--count says how many exercises stand on paper: give --pdf FILE."
            )
        if chosen.paper is not None:
            raise ArmorplanError("--paper says what is printed on: give --pdf FILE.")
        return
    for option, is_given in (
        ("--answer", bool(chosen.answer)),
        ("--solution", chosen.solution),
        ("--hint", chosen.hint),
        ("--focus", chosen.focus is not None),
        ("--json", chosen.json),
    ):
        if is_given:
            raise ArmorplanError(
                f"--pdf goes without {option}: paper holds exercises and answers."
            )
    # Layout is loaded only where paper is asked for.
    from armorplan.app.practice_paper import check_progress_file, check_worksheet_file

    (check_progress_file if chosen.progress else check_worksheet_file)(chosen.pdf)


def _paper(chosen: Namespace) -> "Paper":
    from armorplan.sheets.bench_sheet_ink import PAPERS

    return PAPERS[chosen.paper or "a4"]


def write_worksheet(
    chosen: Namespace, derived: Derived, source: DrillSource, practice: "Practice | None"
) -> int:
    """Write a worksheet and say what stands on it; return 0."""
    from armorplan.app.practice_paper import save_worksheet, worksheet

    asked = asked_plainly(derived, chosen)
    sheet = worksheet(
        source,
        SheetAsked(
            kinds=(asked.kind,) if chosen.kind else (),
            count=USUAL_COUNT if chosen.count is None else chosen.count,
            seed=asked.seed,
            level=asked.level,
            piece=asked.piece,
            part=asked.part,
            person=practice.name if practice else "",
        ),
    )
    save_worksheet(chosen.pdf, sheet, _paper(chosen))
    count = len(sheet.exercises)
    fewer = chosen.count is not None and count < chosen.count
    what = f"{count} {'exercise' if count == 1 else 'exercises'}"
    say(f"{chosen.pdf}: {what}, the answers on pages behind.")
    if fewer:
        say("The build holds no more of these: ask for other kinds, or another level.")
    return CLEAN


def write_progress(chosen: Namespace, derived: Derived, practice: "Practice") -> int:
    """Write the page of somebody's progress; return 0."""
    from armorplan.app.practice_paper import save_progress

    found = practice.desk.progress(practice.person)
    save_progress(chosen.pdf, found, derived.shop.zone, _paper(chosen))
    say(f"{chosen.pdf}: how far {practice.name} is with the reasons.")
    return CLEAN
