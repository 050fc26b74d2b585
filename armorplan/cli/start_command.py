"""``armorplan start``: from a bare drawing to a pattern folder to write on in."""

from argparse import Namespace

from armorplan.cli.exits import CLEAN
from armorplan.cli.reading import say
from armorplan.files.bare_drawing import read_bare
from armorplan.files.new_folder import write_new
from armorplan.files.source import MAX_DRAWING_BYTES, PATTERN_FILE


def start(chosen: Namespace) -> int:
    """Write ``pattern.toml`` and a copy of the drawing into a folder; return 0.

    Raises:
        UnreadableError: the drawing cannot be read, or holds no part.
        ArmorplanError: a file is there already, or the folder cannot be written.
    """
    drawn = read_bare(chosen.drawing, most=MAX_DRAWING_BYTES)
    written = write_new(chosen.folder, {PATTERN_FILE: drawn.toml, drawn.name: drawn.svg})
    for path in written:
        say(f"Written: {path}")
    say(
        f"Say in {PATTERN_FILE} what each part is and how the parts are joined; "
        f"'armorplan check {chosen.folder}' tells what is found."
    )
    return CLEAN
