"""When something is reached in a drying, as instants."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Instants:
    """Soonest, likely, latest; ``None`` for never."""

    soonest_at: datetime | None
    likely_at: datetime | None
    latest_at: datetime | None
