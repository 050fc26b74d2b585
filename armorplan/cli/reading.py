"""What commands read first (pattern folder, shelf, shop file), and how each one speaks."""

import json
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from tzlocal import get_localzone_name

from armorplan.app.snapshots import plain
from armorplan.files.catalogue import read_shelf
from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.findings import Finding
from armorplan.kernel.shipped import samples_folder
from armorplan.store.places import own_catalogues_path
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop, one_maker


def pattern_folder(given: Path) -> Path:
    """Return the folder meant: the path itself, or a sample of that name."""
    sample = samples_folder() / given
    is_name = len(given.parts) == 1 and not given.exists()
    return sample if is_name and sample.is_dir() else given


def bare_drawing_file(given: Path) -> Path:
    """Return the drawing meant: the path itself, or that of a sample that is a drawing alone."""
    sample = samples_folder() / given / f"{given}.svg"
    is_name = len(given.parts) == 1 and not given.exists()
    return sample if is_name and sample.is_file() else given


def shop_for(given: Path | None) -> Shop:
    """Return the shop of a shop file, or one maker with usual hours in this machine's zone."""
    if given is None:
        return one_maker(get_localzone_name() or "UTC")
    read = read_shop_file(given)
    warn(read.findings)
    return read.shop


def own_catalogues(given: Path | None) -> Path | None:
    """Return the folder of the maker's own catalogues: the one given, else the usual if it exists."""
    usual = own_catalogues_path()
    return given or (usual if usual.is_dir() else None)


def shelf_for(given: Path | None) -> Shelf:
    """Return the shelf: the shipped catalogues, with the maker's own over them.

    Raises:
        UnreadableError: with every fault of the maker's own catalogues.
    """
    return read_shelf(own=own_catalogues(given))


def choices_for(given: Sequence[str]) -> dict[str, str]:
    """Return the choices that ``--with option=choice`` names, by option.

    Raises:
        ArmorplanError: one is not written that way, or an option is decided twice.
    """
    found: dict[str, str] = {}
    for written in given:
        option, mark, choice = written.partition("=")
        if not (option.strip() and mark and choice.strip()):
            message = f"'{written}' is no choice. Write --with option=choice, by their ids."
            raise ArmorplanError(message)
        if option.strip() in found:
            message = (
                f"--with decides '{option.strip()}' twice, as '{found[option.strip()]}' and as "
                f"'{choice.strip()}'. Write it once."
            )
            raise ArmorplanError(message)
        found[option.strip()] = choice.strip()
    return found


def warn(findings: Iterable[Finding]) -> None:
    """Tell findings that stop nothing, beside the answer."""
    for finding in findings:
        print(finding, file=sys.stderr)  # noqa: T201 - the command line speaks here


def tell(text: str) -> None:
    """Write a line beside the answer."""
    print(text, file=sys.stderr)  # noqa: T201 - the command line speaks here


def say(text: str) -> None:
    """Write a line for the person at the terminal, who sees it at once also through a pipe."""
    print(text, flush=True)  # noqa: T201 - the command line speaks here


def say_json(value: Any) -> None:
    """Write a frozen value, or plain data, as indented JSON."""
    say(json.dumps(plain(value), ensure_ascii=False, indent=2))
