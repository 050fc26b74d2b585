"""Who is away in the invented shop; what was said is remembered."""

from datetime import datetime

from armorplan.app.absences import AwayRow


class FakeAbsences:
    """Fulfils what the window asks of ``app.absences.Absences``."""

    def __init__(self, people: tuple[AwayRow, ...] = ()) -> None:
        self.people = people
        self.told: list[tuple[str, datetime]] = []

    def rows(self) -> tuple[AwayRow, ...]:
        return self.people

    def away(self, person: str, from_at: datetime | None, until_at: datetime) -> str:
        assert from_at is None
        self.told.append((person, until_at))
        return f"{person.capitalize()} is away."
