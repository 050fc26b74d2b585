"""Days that are not like any week's: absences, extra hours, closing days, holidays.

A stretch is told by its instants, so that a change of the clock shifts nothing.
"""

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """From one instant to another (aware, UTC), and what it is, for words."""

    start_at: datetime
    end_at: datetime
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Holidays:
    """Whose public holidays close the shop.

    Attributes:
        country: ISO 3166 code, such as ``PT``.
        region: its part, as the library ``holidays`` names it; empty: the whole country.
    """

    country: str
    region: str = ""

    def on(self, day: date) -> str:
        """Return the name of the holiday on a day; empty where there is none.

        The country and its region are ones the library knows: files are refused that name others.

        Raises:
            ImportError: the optional library is not installed.
        """
        from holidays import country_holidays

        days = country_holidays(self.country, subdiv=self.region or None, years=day.year)
        return str(days.get(day, ""))
