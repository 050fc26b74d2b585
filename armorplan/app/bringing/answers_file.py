"""Answers as a text that a person can read, change and give again."""

import tomllib
from pathlib import Path

from armorplan.app.bringing.answering import answered_all
from armorplan.app.bringing.model import Bringing
from armorplan.files.faults import brief
from armorplan.files.toml_values import key_text, value_text
from armorplan.kernel.errors import ArmorplanError

MAX_BYTES = 2_000_000
_HEAD = """\
# Answers to what was asked of {name}, in the order they hold.
# 'armorplan bring FILE -o FOLDER --answers THIS' takes them; what is not answered is suggested.
"""


def answers_text(bringing: Bringing) -> str:
    """Return the answers as TOML, with the name where one was said."""
    lines = [_HEAD.format(name=brief(bringing.drawing.name))]
    if bringing.name:
        lines.append(f"name = {value_text(bringing.name)}\n")
    lines.append("\n[answers]\n")
    lines += [f"{key_text([g.about])} = {value_text(g.choice)}\n" for g in bringing.given]
    return "".join(lines)


def with_answers(bringing: Bringing, file: Path) -> Bringing:
    """Return a bringing with the answers of a file; what was said before them gives way.

    Raises:
        ArmorplanError: it cannot be read, or is not written that way.
    """
    values = _values(file)
    answers = values.get("answers", {})
    if not isinstance(answers, dict):
        raise _faulty(file, "answers is no table")
    said: dict[str, str] = {}
    for about, choice in answers.items():
        if isinstance(choice, dict | list | bool):
            raise _faulty(file, f"the answer to {brief(about)} is neither a text nor a number")
        said[about] = str(choice)
    return answered_all(bringing, said)


def _values(file: Path) -> dict[str, object]:
    try:
        if file.stat().st_size > MAX_BYTES:
            raise _faulty(file, f"it is larger than {MAX_BYTES // 1_000_000} MB")
        return tomllib.loads(file.read_text(encoding="utf-8-sig"))
    except OSError as error:
        message = f"{brief(str(file))} cannot be read: {error.strerror}. Give the file of answers."
        raise ArmorplanError(message) from error
    except (ValueError, RecursionError) as error:
        raise _faulty(file, str(error).partition("\n")[0]) from error


def _faulty(file: Path, why: str) -> ArmorplanError:
    return ArmorplanError(
        f"{brief(str(file))} holds no answers: {why}. "
        'Write [answers] and below it lines like "unit" = "25.4".'
    )
