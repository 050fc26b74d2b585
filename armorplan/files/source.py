"""The files of a pattern, as bytes: read from a folder, or brought back from a snapshot of texts.

Only ``pattern.toml`` and the SVG files it names are read. A name that leaves the folder, by
``..``, as an absolute path or through a link, is told and not followed. A bare drawing, an SVG
file in the place of the folder, is read with the ``pattern.toml`` that is written for it.
"""

import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from hashlib import sha256
from pathlib import Path

from armorplan.files.bare_drawing import ENDING, BareDrawing, is_bare_drawing, read_bare
from armorplan.files.faults import Faults, brief, listed
from armorplan.files.file_bytes import read_file, unreadable
from armorplan.files.tables import Table, open_toml
from armorplan.files.text_check import why_not_text
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Place

PATTERN_FILE = "pattern.toml"
MAX_DRAWING_BYTES = 20_000_000
MAX_TOML_BYTES = 2_000_000
MAX_DRAWINGS = 50
MAX_FOLDER_BYTES = 40_000_000
_MISSPELT = 0.8
"""So like 'pattern' a name is that word, and not 'parts'."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternFiles:
    """A pattern's files by name, sorted; ``slug`` is the folder's name.

    Attributes:
        bare: the name of the drawing, where it is a bare one and ``pattern.toml`` was written.
        findings: what was found before the files are read as a pattern.
    """

    slug: str
    files: tuple[tuple[str, bytes], ...]
    bare: str = ""
    findings: tuple[Finding, ...] = ()

    def as_texts(self) -> dict[str, str]:
        """Return the files as texts that give the same bytes back, byte order mark and all.

        Raises:
            UnreadableError: a file is not UTF-8 text.
        """
        findings = [f for name, data in self.files if (f := why_not_text(name, data))]
        if findings:
            raise UnreadableError(tuple(findings))
        return {name: data.decode("utf-8") for name, data in self.files}


def from_texts(slug: str, texts: Mapping[str, str]) -> PatternFiles:
    """Return the files that ``as_texts`` gave the texts of."""
    files = sorted((name, text.encode("utf-8")) for name, text in texts.items())
    return PatternFiles(slug=slug, files=tuple(files))


def content_hash(files: PatternFiles) -> str:
    """Return SHA-256, in hex, over the sorted names and contents.

    Each is preceded by its length, so that no two sets of files run together into one.
    """
    digest = sha256()
    for name, data in sorted(files.files):
        for chunk in (name.encode("utf-8"), data):
            digest.update(len(chunk).to_bytes(8, "big"))
            digest.update(chunk)
    return digest.hexdigest()


def read_folder(folder: Path) -> PatternFiles:
    """Read ``pattern.toml`` and the drawings it names, or a bare drawing.

    A ``pattern.toml`` that is not valid TOML, or whose list of drawings is of the wrong type,
    comes back alone: ``read_pattern`` tells its faults by line.

    Raises:
        UnreadableError: with a finding for every file that could not be had.
    """
    if is_bare_drawing(folder):
        return _bare_files(read_bare(folder, most=MAX_DRAWING_BYTES))
    _check_folder(folder)
    _check_begun(folder)
    toml = read_file(folder, PATTERN_FILE, most=MAX_TOML_BYTES)
    slug = folder.resolve().name or "pattern"
    head = _head_table(toml)
    names = _drawing_names(head)
    if head is None or names is None:
        return PatternFiles(slug=slug, files=((PATTERN_FILE, toml),))
    faults = Faults()
    _check_count(folder, names, head)
    drawings = dict(_drawings(folder, names, head=head, faults=faults))
    if faults.findings:
        raise UnreadableError(faults.findings)
    files = sorted({**drawings, PATTERN_FILE: toml}.items())
    return PatternFiles(slug=slug, files=tuple(files))


def _bare_files(drawn: BareDrawing) -> PatternFiles:
    texts = {PATTERN_FILE: drawn.toml, drawn.name: drawn.svg}
    return replace(from_texts(drawn.slug, texts), bare=drawn.name, findings=drawn.findings)


def _check_folder(folder: Path) -> None:
    mend = f"Give the folder that holds {PATTERN_FILE}, or a bare SVG drawing."
    place = Place(file=brief(str(folder)))
    try:
        there, is_folder = folder.exists(), folder.is_dir()
    except (OSError, ValueError):  # a name too long or with a zero byte
        there = is_folder = False
    if not there and folder.suffix.lower() == ENDING:
        text = f"There is no drawing {brief(str(folder))}."
        raise unreadable("drawing-missing", text, mend=_ways(folder), place=place)
    if not there:
        text = f"There is no folder {brief(str(folder))}."
        raise unreadable("folder-missing", text, mend=mend, place=place)
    if not is_folder:
        text = f"{brief(str(folder))} is not a folder; a pattern is one."
        raise unreadable("not-a-folder", text, mend=mend, place=place)


def _ways(drawing: Path) -> str:
    try:
        there = [path.name for path in drawing.parent.glob(f"*{ENDING}")]
    except OSError:
        there = []
    near = listed(Faults().nearest_first(drawing.name, there))
    return f"There are beside it: {near}." if there else "Give a bare SVG drawing, or a folder."


def _check_begun(folder: Path) -> None:
    """Tell a folder that holds drawings, but nothing about them yet, how to begin."""
    there = sorted(path.name for path in folder.glob("*.svg"))
    if there and not os.path.lexists(folder / PATTERN_FILE):
        drawing = brief(there[0])
        raise unreadable(
            "no-such-file",
            f"The folder {brief(folder.resolve().name)} holds {drawing}, but no {PATTERN_FILE}.",
            mend=f"Give {drawing} itself to look at it; 'armorplan bring {drawing} -o FOLDER' "
            f"makes a pattern of it, with a {PATTERN_FILE} to go on with.",
            place=Place(file=PATTERN_FILE),
        )


def _head_table(toml: bytes) -> Table | None:
    """Return the table that names the drawings; ``None`` where ``read_pattern`` has to say why."""
    top = open_toml(PATTERN_FILE, toml.decode("utf-8"), Faults())
    if top is None or (not top.has("pattern") and _is_misspelt(top)):
        return None
    return top.table("pattern")


def _is_misspelt(top: Table) -> bool:
    tables = [key for key, value in top.values.items() if isinstance(value, dict)]
    return bool(get_close_matches("pattern", tables, n=1, cutoff=_MISSPELT))


def _drawing_names(head: Table | None) -> tuple[str, ...] | None:
    """Return the drawings that pattern.toml names; ``None`` where that cannot be told."""
    names = head.raw("drawings") if head else None
    if head and names is None:
        return ()
    if not isinstance(names, list) or not all(isinstance(name, str) for name in names):
        return None
    return tuple(dict.fromkeys(names))


def _check_count(folder: Path, names: tuple[str, ...], head: Table) -> None:
    if len(names) > MAX_DRAWINGS:
        raise unreadable(
            "too-many-drawings",
            f"{PATTERN_FILE} names {len(names)} drawings; at most {MAX_DRAWINGS} are read.",
            mend="Put several parts into one drawing.",
            place=head.place("drawings"),
        )
    if not names:
        there = sorted(path.name for path in folder.glob("*.svg"))
        where = "." if there else ", and the folder holds no SVG file."
        ways = f'Add drawings = ["{there[0]}"]' if there else "Save the drawing as SVG and name it"
        raise unreadable(
            "no-drawing",
            f"{PATTERN_FILE} names no drawing{where}",
            mend=f"{ways} under [pattern].",
            place=head.place("drawings"),
        )


def _drawings(
    folder: Path, names: tuple[str, ...], *, head: Table, faults: Faults
) -> Iterator[tuple[str, bytes]]:
    left = MAX_FOLDER_BYTES
    for name in names:
        if not name.lower().endswith(".svg") or not name.isprintable():
            faults.error(
                "not-an-svg",
                f'The drawing "{brief(name)}" has no name that ends in .svg.',
                mend='Save it as plain SVG and name it like "cop.svg".',
                place=head.place("drawings"),
            )
            continue
        try:
            data = read_file(folder, name, most=min(MAX_DRAWING_BYTES, left))
        except UnreadableError as error:
            faults.put(*error.findings)
            continue
        left -= len(data)
        yield name, data
