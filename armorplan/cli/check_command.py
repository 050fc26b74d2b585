"""``armorplan check``: everything that is wrong in a pattern folder or in one's catalogues, at once."""

from argparse import Namespace
from pathlib import Path

from armorplan.app.opening import Checked, check_folder
from armorplan.app.reports import CheckReport, shape_report
from armorplan.cli.exits import CLEAN, FAULTY, UNREADABLE
from armorplan.cli.in_shop import shop_of, tell_air
from armorplan.cli.reading import (
    choices_for,
    own_catalogues,
    pattern_folder,
    say,
    say_json,
    shelf_for,
)
from armorplan.cli.shape_words import shape_lines
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import ArmorplanError, UnreadableError
from armorplan.kernel.findings import Finding, Severity, gravest_first, has_errors
from armorplan.store.places import own_catalogues_path
from armorplan.workshop.shelf import Shelf


def _shelf(given: Path | None) -> tuple[Shelf, tuple[Finding, ...]]:
    """Return the shelf and what is wrong in the maker's own catalogues; these then lie aside."""
    try:
        return shelf_for(given), ()
    except UnreadableError as error:
        return read_shelf(), error.findings


def _in_pattern(folder: Path, shelf: Shelf, chosen: Namespace) -> tuple[Checked, int]:
    (shop, air), choices = shop_of(chosen, shelf), choices_for(chosen.choices)
    tell_air(air)
    try:
        firm = chosen.shapes or chosen.json
        checked = check_folder(folder, shelf, shop, chosen=choices, firm=firm)
    except UnreadableError as error:
        return Checked(findings=error.findings), UNREADABLE
    return checked, FAULTY if has_errors(checked.findings) else CLEAN


def _counted(findings: tuple[Finding, ...]) -> str:
    counts = {s: sum(f.severity is s for f in findings) for s in Severity}
    return ", ".join(f"{n} {s}{'s' if n > 1 else ''}" for s, n in counts.items() if n)


def _catalogues_alone(given: Path | None) -> str:
    folder = own_catalogues(given)
    if folder is None:
        message = (
            "Name a pattern folder to check, or your own catalogues with --catalogues DIR; "
            f"there are none in their usual place, {own_catalogues_path()}."
        )
        raise ArmorplanError(message)
    return folder.resolve().name


def check(chosen: Namespace) -> int:
    """Print findings; return 0 for clean, 1 for errors, 2 for what cannot be read."""
    if chosen.pattern is None:
        name, what = _catalogues_alone(chosen.catalogues), "the catalogues are"
    else:
        name, what = pattern_folder(chosen.pattern).resolve().name, "the pattern is"
    shelf, findings = _shelf(chosen.catalogues)
    code, checked = FAULTY if findings else CLEAN, Checked(findings=())
    if chosen.pattern is not None:
        checked, pattern_code = _in_pattern(pattern_folder(chosen.pattern), shelf, chosen)
        findings, code = (*findings, *checked.findings), max(code, pattern_code)
    if chosen.json:
        told = tuple(map(shape_report, checked.shapes))
        say_json(
            CheckReport(pattern=name if chosen.pattern else None, findings=findings, shapes=told)
        )
        return code
    for finding in gravest_first(findings):
        say(str(finding))
    if chosen.shapes:
        for line in (*shape_lines(checked.shapes), ""):
            say(line)
    say(f"{name}: {_counted(findings) or f'nothing found; {what} sound'}.")
    return code
