"""Answers of the drying model: ranges of minutes, and whether it dries at all."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class Stage(StrEnum):
    """How far something has dried."""

    TOUCH = "dry to the touch"
    RECOAT_BY = "next coat at the latest"
    OPENS = "ready to shape"
    CLOSES = "too dry to shape"
    HANDLE = "dry to handle"
    CURE = "cured"


class Verdict(StrEnum):
    """Whether a treatment dries in an air."""

    DRIES = "dries"
    WILL_NOT_DRY = "will not dry"
    WOULD_SPOIL = "would spoil"


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """Minutes from the start of drying until a stage: at the soonest, likely, at the latest.

    ``None`` where it is not reached within the longest time looked at.
    """

    soonest_min: int | None
    likely_min: int | None
    latest_min: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class DryTimes:
    """When what was wet at ``start_at`` reaches each stage its treatment knows.

    Attributes:
        verdict: ``WILL_NOT_DRY``: not dry to handle within the longest time looked at, likely;
            ``WOULD_SPOIL``: the air is colder than the finish forms a film in, while it forms.
        spans: by stage.
        coldest_c: the coldest air until the film is formed, or until it is dry to handle.
        pct_of_usual: likely minutes to handle, in per cent of the catalogue's; 0 for never.
    """

    start_at: datetime
    verdict: Verdict
    spans: Mapping[Stage, Span]
    coldest_c: float
    pct_of_usual: int

    def likely_min(self, stage: Stage) -> int | None:
        """Return the likely minutes to a stage, ``None`` for never or where there is no such stage."""
        span = self.spans.get(stage)
        return None if span is None else span.likely_min
