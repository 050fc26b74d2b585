"""Finds what ships with the program, in a wheel and in an editable install alike."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def _shipped(name: str) -> Path:
    inside = _PACKAGE / "_shipped" / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


def resources_folder() -> Path:
    """Return the folder of catalogues and schemas."""
    return _shipped("resources")


def samples_folder() -> Path:
    """Return the folder of the sample patterns."""
    return _shipped("sample_projects")
