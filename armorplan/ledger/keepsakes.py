"""Keepsakes: what a maker keeps with a build, a note, a measurement or a photo of a step or part."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class KeepsakeKind(StrEnum):
    """What was kept."""

    NOTE = "note"
    MEASUREMENT = "measurement"
    PHOTO = "photo"


class AboutKind(StrEnum):
    """What sort of thing it was kept of."""

    BUILD = "build"
    STEP = "step"
    PART = "part"


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What a keepsake is of.

    Attributes:
        kind: the whole build, a step or a part.
        id: the step's id, or the part's with its side; empty: the build as a whole.
    """

    kind: AboutKind
    id: str = ""


THE_BUILD = About(kind=AboutKind.BUILD)


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptFile:
    """A file copied into the folder of kept files.

    Attributes:
        place: below that folder, as ``build/name``.
        sha256: what it holds, in hex.
        size: in bytes.
    """

    place: str
    sha256: str
    size: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Keepsake:
    """One thing kept with a build; it never changes.

    Attributes:
        build: the build's id.
        about: what it is of.
        at: when it was kept, aware and in UTC.
        who: by whom; empty where nobody said so.
        text: the note; what was measured; what the photo shows.
        value: the measured number, in ``unit``; ``None``: nothing was measured.
        unit: mm, g, °C or what the maker wrote.
        file: the photo; ``None``: there is none.
        seq: its number in the workshop; 0 before it has one.
    """

    build: str
    about: About
    at: datetime
    who: str = ""
    text: str = ""
    value: float | None = None
    unit: str = ""
    file: KeptFile | None = None
    seq: int = 0

    @property
    def kind(self) -> KeepsakeKind:
        """Return whether it is a photo, a measurement or a note."""
        if self.file is not None:
            return KeepsakeKind.PHOTO
        return KeepsakeKind.NOTE if self.value is None else KeepsakeKind.MEASUREMENT
