"""A drawing that is half brought in: which file it is and what was answered, kept as JSON."""

import json
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from armorplan.store.places import begun_drawing_path

FORM = 1
"""Number of the form in which it is kept; another one is not read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """A drawing that was begun: its file, the name of the pattern, and the answers by question."""

    file: Path
    name: str = ""
    answers: Mapping[str, str] = field(default_factory=dict)


class BegunFile:
    """Keeps what was begun last, and nothing once it is written as a pattern."""

    def __init__(self, path: Path | None = None) -> None:
        self._path = path or begun_drawing_path()

    def keep(self, begun: Begun) -> str:
        """Keep what is answered so far; return why that was not possible, or an empty text."""
        held = {
            "form": FORM,
            "file": str(begun.file),
            "name": begun.name,
            "answers": dict(begun.answers),
        }
        half = self._path.with_suffix(".part")
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            half.write_text(json.dumps(held, ensure_ascii=False, indent=1), encoding="utf-8")
            half.replace(self._path)
        except OSError as error:
            return f"Your answers are not kept for later: {error.strerror} ({self._path})."
        return ""

    def held(self) -> Begun | None:
        """Return what was begun; ``None`` where nothing is, or it cannot be read any more."""
        try:
            held = json.loads(self._path.read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return None
        if not isinstance(held, dict) or held.get("form") != FORM:
            return None
        answers = held.get("answers")
        if not isinstance(held.get("file"), str) or not isinstance(answers, dict):
            return None
        return Begun(
            file=Path(held["file"]),
            name=str(held.get("name", "")),
            answers={str(key): str(said) for key, said in answers.items()},
        )

    def forget(self) -> None:
        """Keep nothing: it is written, or nobody wants it."""
        with suppress(OSError):
            self._path.unlink(missing_ok=True)
