"""A build: one making of a pattern, with everything it was made from kept as it was."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildRecord:
    """One making of a pattern and its snapshot, which never changes.

    Attributes:
        id: a slug such as ``elbow_cop-1``; the first part of its steps' ids.
        created_at: aware UTC instant.
        pattern_files: name and text of each of the pattern's files, as they were read.
        constants_json: the catalogues' constants at that time.
        relations_json: the relations derived from both.
        folder: where the pattern's folder lay then; empty where nobody noted it.
    """

    id: str
    name: str
    pattern_uuid: str
    pattern_version: int
    pattern_hash: str
    created_at: datetime
    pattern_files: tuple[tuple[str, str], ...]
    constants_json: str
    relations_json: str
    folder: str = ""


def next_build_id(slug: str, taken: Iterable[str]) -> str:
    """Return ``slug-1``, or the first number above all that are taken for this slug."""
    head = f"{slug}-"
    tails = (build.removeprefix(head) for build in taken if build.startswith(head))
    return f"{head}{1 + max((int(tail) for tail in tails if tail.isdecimal()), default=0)}"
