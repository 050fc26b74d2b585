"""``armorplan check``: everything that is wrong in a pattern folder or in one's catalogues, at once."""

from argparse import Namespace
from pathlib import Path

from armorplan.app.opening import check_folder
from armorplan.cli.exits import CLEAN, FAULTY, UNREADABLE
from armorplan.cli.reading import (
    choices_for,
    own_catalogues,
    pattern_folder,
    say,
    say_json,
    shelf_for,
    shop_for,
)
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import ArmorplanError, UnreadableError
from armorplan.kernel.findings import Finding, Severity, has_errors
from armorplan.store.places import own_catalogues_path
from armorplan.workshop.shelf import Shelf

_Found = tuple[tuple[Finding, ...], int]


def _shelf(given: Path | None) -> tuple[Shelf, tuple[Finding, ...]]:
    """Return the shelf and what is wrong in the maker's own catalogues; these then lie aside."""
    try:
        return shelf_for(given), ()
    except UnreadableError as error:
        return read_shelf(), error.findings


def _in_pattern(folder: Path, shelf: Shelf, chosen: Namespace) -> _Found:
    shop, choices = shop_for(chosen.shop), choices_for(chosen.choices)
    try:
        findings = check_folder(folder, shelf, shop, chosen=choices)
    except UnreadableError as error:
        return error.findings, UNREADABLE
    return findings, FAULTY if has_errors(findings) else CLEAN


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
    code = FAULTY if findings else CLEAN
    if chosen.pattern is not None:
        found, pattern_code = _in_pattern(pattern_folder(chosen.pattern), shelf, chosen)
        findings, code = (*findings, *found), max(code, pattern_code)
    if chosen.json:
        say_json({"pattern": name if chosen.pattern else None, "findings": findings})
        return code
    for finding in findings:
        say(str(finding))
    say(f"{name}: {_counted(findings) or f'nothing found; {what} sound'}.")
    return code
