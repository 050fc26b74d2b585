"""``armorplan bring``: from a drawing for a cutter or a printer to a pattern folder."""

from argparse import Namespace
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from textwrap import wrap

from armorplan.app.bringing.answering import UNIT, answered, begun
from armorplan.app.bringing.answers_file import answers_text, with_answers
from armorplan.app.bringing.model import Bringing
from armorplan.app.bringing.questions import accepted, only_sure, unasked
from armorplan.app.bringing.report import BringReport, TakenFor, report_of
from armorplan.app.bringing.writing import write_brought
from armorplan.app.week_files import check_place, write_whole
from armorplan.cli.exits import CLEAN
from armorplan.cli.reading import bare_drawing_file, say, say_json, shelf_for, tell
from armorplan.files.faults import brief
from armorplan.files.loose.reading import read_loose
from armorplan.workshop.shelf import Shelf

_WIDE, _IN = 100, "    "
_ANSWERS = "file of answers"


def bring(chosen: Namespace) -> int:
    """Take what is suggested, write the folder, say what was taken for what; return 0.

    Raises:
        UnreadableError: the file cannot be read, or holds no part.
        ArmorplanError: the folder is not empty, or a file cannot be read or written.
    """
    shelf, drawing = shelf_for(None), bare_drawing_file(chosen.drawing)
    bringing = _answered(chosen, begun(read_loose(drawing), name=chosen.name), shelf)
    report = report_of(bringing, shelf)
    if chosen.save_answers and chosen.save_answers.parent.resolve() != chosen.folder.resolve():
        check_place(chosen.save_answers, _ANSWERS)
    written = write_brought(bringing, shelf, folder=chosen.folder, original=drawing)
    if chosen.save_answers:
        everything = accepted(bringing, shelf, sure_only=False)
        write_whole(chosen.save_answers, answers_text(everything).encode(), _ANSWERS)
        written = (*written, chosen.save_answers)
    report = replace(report, written=tuple(str(path) for path in written))
    if chosen.json:
        say_json(report)
        return CLEAN
    for line in _lines(report, chosen.folder):
        say(line)
    return CLEAN


def _answered(chosen: Namespace, bringing: Bringing, shelf: Shelf) -> Bringing:
    """Return it with what was typed: a file of answers, and over it the options."""
    if chosen.answers:
        bringing = with_answers(bringing, chosen.answers)
    if chosen.unit:
        bringing = answered(bringing, UNIT, f"{chosen.unit:.6g}")
    for about in unasked(bringing, shelf):
        tell(f"The answer to {brief(about)} answers nothing that is asked of this drawing.")
    return only_sure(bringing, shelf) if chosen.sure_only else bringing


def _lines(report: BringReport, folder: Path) -> Iterator[str]:
    parts = f"{report.parts} part{'' if report.parts == 1 else 's'}"
    joints = f"{report.joints} joint{'' if report.joints == 1 else 's'}"
    yield f"{report.pattern}: {parts}, {joints}, brought in from {report.drawing}"
    yield "What it was taken for (? is a guess worth a look):"
    for each in report.taken:
        yield from _taken_lines(each)
    for finding in report.findings:
        yield from _wrapped(f"{finding.severity}: {finding.text} {finding.remedy}")
    for sentence in report.open:
        yield from _wrapped(f"Open: {sentence}")
    yield ""
    for path in report.written:
        yield f"Written: {path}"
    yield f"'armorplan check {folder}' tells what is found; 'armorplan {folder}' opens it."


def _taken_lines(each: TakenFor) -> Iterator[str]:
    mark = " " if each.sure or each.answered else "?"
    first, *rest = wrap(each.question, _WIDE - len(_IN))
    yield f"  {mark} {first}"
    yield from (f"{_IN}{line}" for line in rest)
    yield f"{_IN}→ {each.words}"


def _wrapped(words: str) -> Iterator[str]:
    first, *rest = wrap(words, _WIDE - 2)
    yield f"  {first}"
    yield from (f"{_IN}{line}" for line in rest)
