"""``armorplan strip``: where a leather keeps its length in a bend, from a test strip."""

from argparse import Namespace
from pathlib import Path

from armorplan.app.test_strip import keep_neutral, leather_lines, strip_result
from armorplan.cli.exits import CLEAN, FAULTY
from armorplan.cli.reading import say
from armorplan.files.catalogue import LEATHERS_FILE
from armorplan.kernel.errors import ArmorplanError
from armorplan.store.places import own_catalogues_path

_SOME_LEATHER = "ID-of-the-leather"


def strip(chosen: Namespace) -> int:
    """Print what a strip tells, and keep it where that is asked; return 0, or 1 for no measure.

    Raises:
        UnreadableError: the maker's own catalogues have faults.
        ArmorplanError: it cannot be kept.
    """
    if chosen.keep and not chosen.leather:
        message = "Say which leather to keep it for: --leather ID, as in leathers.toml."
        raise ArmorplanError(message)
    result = strip_result(
        flat_mm=chosen.flat,
        legs_mm=chosen.legs,
        radius_mm=chosen.radius,
        angle_deg=chosen.angle,
        thickness_mm=chosen.thickness,
        outside=chosen.outside,
    )
    for figure in result.figures:
        say(f"{figure.formula}  ({figure.source})")
    if result.finding is not None or result.neutral is None:
        say(str(result.finding))
        return FAULTY
    folder: Path = chosen.catalogues or own_catalogues_path()
    if chosen.keep:
        kept = keep_neutral(folder, chosen.leather, result.neutral)
        before = "" if kept.former is None else f"; it was {kept.former:g}"
        say(f"Kept for {kept.leather}: neutral = {kept.value:g}{before}.")
        say(f"Written: {kept.path}")
        return CLEAN
    say(f"To have it reckoned with, write this into {folder / LEATHERS_FILE}, or add --keep:")
    if not chosen.leather:
        say(f"(in place of {_SOME_LEATHER} the leather it was cut from, by its id there)")
    say("")
    say(leather_lines(chosen.leather or _SOME_LEATHER, result.neutral).rstrip())
    return CLEAN
