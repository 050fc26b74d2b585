"""A real pattern under edit, in a folder of its own."""

from pathlib import Path

from armorplan.app.draft import Bench, Draft, drafted
from armorplan.app.drafting import Home, OpenDraft
from armorplan.files.catalogue import read_shelf
from armorplan.files.source import read_folder
from armorplan.workshop.shop import one_maker

BENCH = Bench(shelf=read_shelf(), shop=one_maker("UTC"))
OPTIONS = """
[options.dyed]
name = "How it is dyed"
chosen = "wipe"
choices.wipe = { name = "wiped" }
choices.dip = { name = "dipped", applying = "dip", times = { dye = 0.5 } }
"""


def open_draft(folder: Path, *, said: str = "") -> OpenDraft:
    """Return the draft of a folder at home in it."""
    draft: Draft = drafted(read_folder(folder), BENCH)
    return OpenDraft(draft=draft, home=Home(folder=folder, saved_texts=draft.texts, said=said))


def add_options(folder: Path) -> None:
    """Write a build option into the folder's pattern."""
    file = folder / "pattern.toml"
    file.write_text(file.read_text(encoding="utf-8") + OPTIONS, encoding="utf-8")
