"""Weekly hours in the shop's local time."""

from dataclasses import dataclass
from datetime import time


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """One stretch of work on a weekday (0 is Monday), in the shop's local time."""

    weekday: int
    start: time
    end: time
