"""Who works in a window, so that it is learned how long whose hands take."""

from pathlib import Path

from armorplan.kernel.errors import ArmorplanError
from armorplan.workshop.shop import Shop


def who_works(given: str | None, shop: Shop, file: Path | None) -> str:
    """Return the name of who works in a window; empty where nobody says.

    Raises:
        ArmorplanError: the shop file names its people, and nobody is called so.
    """
    wanted = (given or "").strip()
    if not wanted or file is None:
        return wanted
    person = shop.called(wanted)
    if person is not None:
        return person.name
    people = ", ".join(person.name for person in shop.people)
    message = f"Nobody called '{wanted}' works in the shop of {file}. Its people: {people}."
    raise ArmorplanError(message)
