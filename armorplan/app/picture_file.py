"""Pictures written to files: what their names may be, and what is said where one cannot be written."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from armorplan.kernel.errors import ArmorplanError

ENDINGS = (".png", ".svg", ".pdf")


def check_picture(path: Path) -> None:
    """Look at a picture's name before the work for it is done.

    Raises:
        ArmorplanError: it has no ending that says what kind of picture it is, or no folder.
    """
    if path.suffix.lower() not in ENDINGS:
        message = (
            f"{path}: the picture cannot be written so. Let its name end in .png, .svg or .pdf."
        )
        raise ArmorplanError(message)
    if not path.parent.is_dir():
        message = f"{path}: the picture cannot be written: there is no folder {path.parent}."
        raise ArmorplanError(message)


@contextmanager
def written_to(path: Path) -> Iterator[None]:
    """Write a picture within this.

    Raises:
        ArmorplanError: it cannot be written.
    """
    check_picture(path)
    try:
        yield
    except OSError as error:
        why = (error.strerror or "it cannot be written").lower()
        message = f"{path}: the picture cannot be written ({why}). Choose another file."
        raise ArmorplanError(message) from error
