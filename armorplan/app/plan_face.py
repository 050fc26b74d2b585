"""The plan in words, for the face of the window."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanFace:
    """The plan in words: ``sentence`` for the face, ``details`` for who asks.

    ``finish_at`` is of the open build; ``finish_of`` names it, and ``all_finish_at`` is of all
    builds, where there are several.
    """

    sentence: str
    details: str
    finish_at: datetime | None
    finish_of: str = ""
    all_finish_at: datetime | None = None
