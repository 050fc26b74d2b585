"""``armorplan check``: everything that is wrong in a pattern folder, at once."""

from argparse import Namespace
from collections.abc import Mapping
from pathlib import Path

from armorplan.app.opening import check_folder
from armorplan.cli.exits import CLEAN, FAULTY, UNREADABLE
from armorplan.cli.reading import choices_for, pattern_folder, say, say_json, shop_for
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Severity, has_errors
from armorplan.workshop.shop import Shop


def _found(
    folder: Path, shop: Shop, choices: Mapping[str, str]
) -> tuple[tuple[Finding, ...], int]:
    shelf = read_shelf()
    try:
        findings = check_folder(folder, shelf, shop, chosen=choices)
    except UnreadableError as error:
        return error.findings, UNREADABLE
    return findings, FAULTY if has_errors(findings) else CLEAN


def _counted(findings: tuple[Finding, ...]) -> str:
    counts = {s: sum(f.severity is s for f in findings) for s in Severity}
    return ", ".join(f"{n} {s}{'s' if n > 1 else ''}" for s, n in counts.items() if n)


def check(chosen: Namespace) -> int:
    """Print findings; return 0 for clean, 1 for errors, 2 for what cannot be read."""
    folder = pattern_folder(chosen.pattern)
    findings, code = _found(folder, shop_for(chosen.shop), choices_for(chosen.choices))
    if chosen.json:
        say_json({"pattern": folder.resolve().name, "findings": findings})
        return code
    for finding in findings:
        say(str(finding))
    say(f"{folder.resolve().name}: {_counted(findings) or 'nothing found; the pattern is sound'}.")
    return code
