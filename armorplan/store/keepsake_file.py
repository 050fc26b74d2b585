"""Keepsakes in the workshop file; photos lie as files in a folder beside it."""

from dataclasses import replace
from datetime import datetime
from pathlib import Path

from armorplan.kernel.clock import Clock
from armorplan.ledger.keepsakes import About, AboutKind, Keepsake, KeptFile
from armorplan.store.columns import Row, instant_text
from armorplan.store.kept_files import KeptFiles
from armorplan.store.tables import Tables

_ADD = """
    INSERT INTO keepsakes (build, about_kind, about, at, who, text, value, unit, file, sha256, size)
    VALUES (:build, :about_kind, :about, :at, :who, :text, :value, :unit, :file, :sha256, :size)
"""
_OF = """
    SELECT * FROM keepsakes
    WHERE build = :build AND seq NOT IN (SELECT keepsake FROM keepsakes_withdrawn) ORDER BY seq
"""
_LATEST = """
    SELECT coalesce(max(seq), 0) AS kept,
        (SELECT coalesce(max(seq), 0) FROM keepsakes_withdrawn) AS withdrawn
    FROM keepsakes WHERE build = :build
"""
_WITHDRAW = "INSERT INTO keepsakes_withdrawn (keepsake, at, who) VALUES (:keepsake, :at, :who)"
_HAND_ON = """
    INSERT INTO keepsakes (build, about_kind, about, at, who, text, value, unit, file, sha256, size)
    SELECT :build, about_kind,
        CASE WHEN substr(about, 1, length(:former) + 1) = :former || '/'
            THEN :build || substr(about, length(:former) + 1) ELSE about END,
        at, who, text, value, unit, file, sha256, size
    FROM keepsakes
    WHERE build = :former AND seq NOT IN (SELECT keepsake FROM keepsakes_withdrawn) ORDER BY seq
"""
"""A step's id begins with its build's."""


class KeepsakeFile:
    """Keeps notes, measurements and photos; WorkshopError where they cannot be.

    Attributes:
        files: the folder of kept files; a photo is copied there first, in any thread.
    """

    def __init__(self, tables: Tables, path: Path, clock: Clock) -> None:
        self._tables = tables
        self._clock = clock
        self.files = KeptFiles(path.with_name(f"{path.name}.kept"))

    def add(self, keepsake: Keepsake) -> Keepsake:
        """Keep it for ever, and return it with its number."""
        (seq,) = self._tables.write((_ADD, _row(keepsake)))
        return replace(keepsake, seq=seq)

    def of(self, build: str) -> tuple[Keepsake, ...]:
        """Return what is kept with a build, oldest first, without what was withdrawn."""
        return self._tables.read(_keepsake_of, _OF, {"build": build})

    def latest(self, build: str) -> object:
        """Return a value that is another once more was kept with a build, or was withdrawn."""
        return self._tables.read(
            lambda row: (row["kept"], row["withdrawn"]), _LATEST, {"build": build}
        )

    def withdraw(self, keepsake: Keepsake, *, who: str = "") -> None:
        """Show it no more; its row and its file stay."""
        at = instant_text(self._clock.now())
        self._tables.write((_WITHDRAW, {"keepsake": keepsake.seq, "at": at, "who": who}))

    def handing_on(self, former: str, build_id: str) -> tuple[str, Row]:
        """Return the statement by which a build takes over what is kept with a former one."""
        return _HAND_ON, {"build": build_id, "former": former}


def _row(keepsake: Keepsake) -> Row:
    file = keepsake.file or KeptFile(place="", sha256="", size=0)
    return {
        "build": keepsake.build,
        "about_kind": keepsake.about.kind.value,
        "about": keepsake.about.id,
        "at": instant_text(keepsake.at),
        "who": keepsake.who,
        "text": keepsake.text,
        "value": keepsake.value,
        "unit": keepsake.unit,
        "file": file.place,
        "sha256": file.sha256,
        "size": file.size,
    }


def _keepsake_of(row: Row) -> Keepsake:
    file = KeptFile(place=row["file"], sha256=row["sha256"], size=row["size"])
    return Keepsake(
        build=row["build"],
        about=About(kind=AboutKind(row["about_kind"]), id=row["about"]),
        at=datetime.fromisoformat(row["at"]),
        who=row["who"],
        text=row["text"],
        value=row["value"],
        unit=row["unit"],
        file=file if file.place else None,
        seq=row["seq"],
    )
