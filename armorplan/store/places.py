"""Where the workshop file lies unless the maker names another place."""

from pathlib import Path

from platformdirs import user_data_path


def default_workshop_path() -> Path:
    """Return the workshop file in the user's data folder; nothing is created."""
    return user_data_path("armorplan", appauthor=False) / "workshop.sqlite"
