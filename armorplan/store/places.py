"""Where the workshop file and a maker's own catalogues lie unless another place is named."""

from pathlib import Path

from platformdirs import user_data_path


def default_workshop_path() -> Path:
    """Return the workshop file in the user's data folder; nothing is created."""
    return _data_folder() / "workshop.sqlite"


def own_catalogues_path() -> Path:
    """Return the folder of a maker's own catalogues in the user's data folder; it may not exist."""
    return _data_folder() / "catalogues"


def printers_folder() -> Path:
    """Return the folder in which it is kept how the maker's printers draw; it may not exist."""
    return _data_folder()


def begun_drawing_path() -> Path:
    """Return the file in which a drawing that is half brought in is kept; it may not exist."""
    return _data_folder() / "begun_drawing.json"


def drafts_folder() -> Path:
    """Return the folder in which changes are kept that are not saved yet; it may not exist."""
    return _data_folder() / "drafts"


def own_wearers_path() -> Path:
    """Return the file of a maker's own wearers and their measures; it may not exist."""
    return _data_folder() / "wearers.toml"


def _data_folder() -> Path:
    return user_data_path("armorplan", appauthor=False)
