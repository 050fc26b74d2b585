"""The drawings of a pattern under an edit: which one holds a shape, and what is changed in each."""

import re
from collections.abc import Mapping

from armorplan.files.source import PATTERN_FILE
from armorplan.files.svg_patch import SvgPatch
from armorplan.files.toml_patch import UnpatchableError


class Drawings:
    """All files of a pattern by name, of which drawings are changed where they are asked for."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        self._texts: dict[str, str | None] = dict(texts)
        self._patches: dict[str, SvgPatch] = {}

    @property
    def texts(self) -> dict[str, str | None]:
        """The files with all changes so far; ``None`` for one that is a file of the pattern no more."""
        return self._texts | {name: patch.text for name, patch in self._patches.items()}

    def of(self, shape: str) -> SvgPatch:
        """Return the drawing that holds a shape, to be changed."""
        return self._patches[self.name_of(shape)]

    def name_of(self, shape: str) -> str:
        """Return the name of the drawing that holds a shape.

        Raises:
            UnpatchableError: no drawing does.
        """
        written = re.compile(rf"""\sid\s*=\s*["']{re.escape(shape)}["']""")
        for name, text in self._texts.items():
            if text and name != PATTERN_FILE and written.search(text):
                patch = self._patches.get(name) or SvgPatch(text)
                self._patches[name] = patch
                if patch.draws(shape):
                    return name
        message = f'No drawing of the pattern draws "{shape}" by itself; give the shape this id.'
        raise UnpatchableError(message)

    def put(self, name: str, text: str) -> None:
        """Put a file beside the others, or another text in its place."""
        self._texts[name] = text

    def drop_empty(self) -> list[str]:
        """Leave out drawings in which no shape with an id is left, and return their names.

        Their files stay on the disk.
        """
        empty = [n for n, patch in self._patches.items() if not SvgPatch(patch.text).has_shapes]
        for name in empty:
            self._texts[name] = None
            del self._patches[name]
        return empty
