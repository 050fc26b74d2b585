"""One rule of a problem that a plan breaks."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Violation:
    """One broken rule: a stable kind, the activities it is about, and a sentence with numbers."""

    kind: str
    about: tuple[str, ...]
    text: str
