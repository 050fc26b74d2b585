"""``armorplan needs``: leather, fasteners, dye, hours and cost of one build."""

from argparse import Namespace
from collections.abc import Iterator
from pathlib import Path

from armorplan.app.needs_rows import NeedsPage
from armorplan.app.needs_sections import needs_of, needs_page, tray_named
from armorplan.cli.exits import CLEAN
from armorplan.cli.in_shop import derived_for
from armorplan.cli.reading import say, say_json
from armorplan.cli.section_lines import section_lines
from armorplan.kernel.errors import ArmorplanError
from armorplan.needs.model import Needs
from armorplan.sheets.needs_csv import needs_csv


def needs(chosen: Namespace) -> int:
    """Print what a build uses up; return 0. Mistakes in the pattern are told as errors."""
    derived = derived_for(chosen)
    tray = chosen.tray or tray_named(derived.shop, "")
    found = needs_of(derived, tray)
    if chosen.csv:
        _write(chosen.csv, found)
    if chosen.json:
        say_json(found)
    else:
        for line in _lines(needs_page(found)):
            say(line)
        if chosen.csv:
            say(f"Written: {chosen.csv}")
    return CLEAN


def _write(file: Path, found: Needs) -> None:
    try:
        file.write_text(needs_csv(found), encoding="utf-8-sig", newline="")
    except OSError as error:
        message = f"{file}: the table cannot be written ({error.strerror}). Choose another file."
        raise ArmorplanError(message) from error


def _lines(page: NeedsPage) -> Iterator[str]:
    yield f"{page.title}: what one build needs"
    for section in page.sections:
        yield ""
        yield from section_lines(section)
