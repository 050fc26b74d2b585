"""An order that somebody wrote: a text file with one step id a line."""

from difflib import get_close_matches
from pathlib import Path

from armorplan.app.derived import Derived
from armorplan.kernel.errors import ArmorplanError

_MOST_TOLD = 3
_MEND = "Write one step id a line, as 'armorplan order' lists them."


def read_order(file: Path, derived: Derived) -> tuple[str, ...]:
    """Return the step ids of a file, blank lines left out.

    Raises:
        ArmorplanError: the file cannot be read, or names a step that this pattern has not.
    """
    lines = [line.strip() for line in _text(file).splitlines()]
    unknown = [line for line in dict.fromkeys(lines) if line and not derived.work.has(line)]
    if unknown:
        told = [_unknown(step, derived) for step in unknown[:_MOST_TOLD]]
        if len(unknown) > _MOST_TOLD:
            told.append(f"And {len(unknown) - _MOST_TOLD} more that are none. {_MEND}")
        raise ArmorplanError(f"{file.name}: {' '.join(told)}")
    return tuple(line for line in lines if line)


def _text(file: Path) -> str:
    try:
        return file.read_text(encoding="utf-8")
    except FileNotFoundError as error:
        message = f"There is no file {file}. {_MEND}"
        raise ArmorplanError(message) from error
    except IsADirectoryError as error:
        message = f"{file} is a folder; the order is a text file. {_MEND}"
        raise ArmorplanError(message) from error
    except UnicodeDecodeError as error:
        message = f"{file} is not a text in UTF-8. {_MEND}"
        raise ArmorplanError(message) from error
    except OSError as error:
        message = f"{file} cannot be read: {error.strerror or error}. {_MEND}"
        raise ArmorplanError(message) from error


def _unknown(step: str, derived: Derived) -> str:
    near = get_close_matches(step, derived.order, n=1)
    mend = f'Perhaps "{near[0]}" is meant.' if near else _MEND
    return f'There is no step "{step}" in this pattern. {mend}'
