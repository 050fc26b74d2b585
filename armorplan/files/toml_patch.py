"""Changes single keys and tables of a TOML text; everything else stays byte for byte.

tomlkit keeps a file's words too, but moves or drops line ends when tables are replaced, added or
stand out of order (its issues 48, 318 and 387, all seen again in 0.15). So only single values are
written with it, and each is put into the text at its own place, found by ``toml_lines``. Whatever
is made is read again before it is returned: it holds the change asked for and no other.
"""

import tomllib
from collections.abc import Iterable, Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

from armorplan.files.toml_lines import KeyPath
from armorplan.files.toml_splice import Edit, Spliced
from armorplan.files.toml_values import TomlValue, key_text
from armorplan.kernel.errors import ArmorplanError

_MARK = "\ufeff"


class UnpatchableError(ArmorplanError):
    """The change cannot be written into the text as it stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change of a text: a key set, a key or table taken out, or a new table.

    Attributes:
        path: table ids and the key, from the top down.
        value: what it shall hold; ``None`` takes it out.
        is_new: a table that must not be there yet, put at the end of its group.
        is_name: the value is another name for the table, which stays where it is.
    """

    path: KeyPath
    value: Any
    is_new: bool = False
    is_name: bool = False


def patched(text: str, path: KeyPath, value: TomlValue | None) -> str:
    """Return the text with one key set; ``None`` takes the key, or the whole table, out.

    A table is replaced as a whole by no value: use ``with_table`` to add one.

    Args:
        text: valid TOML, with or without a byte order mark.
        path: table ids and the key, from the top down.
        value: what the key shall hold.

    Raises:
        UnpatchableError: the text is not valid TOML, or cannot hold the value there.
    """
    return all_patched(text, [Change(path=path, value=value)])


def removed(text: str, path: KeyPath) -> str:
    """Return the text without a key or table; comments right above a table go with it.

    Raises:
        UnpatchableError: the text is not valid TOML.
    """
    return patched(text, path, None)


def with_table(text: str, path: KeyPath, values: Mapping[str, TomlValue]) -> str:
    """Return the text with a new table at the end of its group, written as its neighbours are.

    Raises:
        UnpatchableError: there is such a table already, or the text cannot hold one.
    """
    return all_patched(text, [Change(path=path, value=dict(values), is_new=True)])


def all_patched(text: str, changes: Iterable[Change]) -> str:
    """Return the text with changes made one after the other, all or none; it is read once.

    Raises:
        UnpatchableError: the text is not valid TOML, or cannot hold one of the changes.
    """
    mark = _MARK if text.startswith(_MARK) else ""
    work = _Work(text.removeprefix(_MARK))
    try:
        work.begin()
        for change in changes:
            work.make(change)
        made = work.made
        is_so = _same(tomllib.loads(made), work.data)
    except (ValueError, KeyError, RecursionError) as error:
        raise UnpatchableError(f"{key_text(work.path)} cannot be written: {error}.") from error
    if not is_so:
        raise UnpatchableError(
            f"{key_text(work.path)} cannot be written without changing something else in the file."
        )
    return mark + made


class _Work:
    """Changes under way; those that do not touch each other are written in one go.

    ``path`` is that of the last change, ``data`` what the text shall hold.
    """

    def __init__(self, text: str) -> None:
        self._text = text
        self._patch: Spliced | None = None
        self._edits: list[Edit] = []
        self._paths: list[KeyPath] = []
        self._thinned: set[KeyPath] = set()
        self.path: KeyPath = ()
        self.data: dict[str, Any] = {}

    def begin(self) -> None:
        """Read the text."""
        self.data = tomllib.loads(self._text)

    @property
    def made(self) -> str:
        """The text with all changes so far."""
        if self._edits and self._patch is not None:
            self._text = self._patch.edited(self._edits)
            self._patch = None
        self._edits, self._paths = [], []
        self._thinned.clear()
        return self._text

    def make(self, change: Change) -> None:
        """Make a change."""
        self.path = change.path
        if not self._joins(change):
            self._text = _made(self.made, self.data, change)
            self._patch = None
        if change.is_name:
            _rename(self.data, change.path, change.value)
        else:
            _set(self.data, change.path, change.value)

    def _joins(self, change: Change) -> bool:
        """Take a change in with those that wait, if it touches none of them."""
        if change.is_name or any(_meet(change.path, path) for path in self._paths):
            return False
        if change.value is None or change.path[:-1] in self._thinned:
            # A comma goes with what is taken out of a table in one line: what stands beside it waits.
            beside = any(path[:-1] == change.path[:-1] for path in self._paths)
            self._thinned.add(change.path[:-1])
            if beside:
                return False
        patch = self._patch = self._patch or Spliced(self._text, self.data)
        edit = _edit(patch, change)
        if edit is None or any(_overlap(edit, other) for other in self._edits):
            return False
        self._edits.append(edit)
        self._paths.append(change.path)
        return True


def _meet(one: KeyPath, other: KeyPath) -> bool:
    depth = min(len(one), len(other))
    return one[:depth] == other[:depth]


def _overlap(one: Edit, other: Edit) -> bool:
    return one[0] < other[1] and other[0] < one[1]


def _edit(patch: Spliced, change: Change) -> Edit | None:
    """Return a change as one stretch of the text; ``None`` where it may be several, or depends."""
    if change.value is None:
        cut = patch.cut(change.path) if patch.is_one(change.path) else None
        return None if cut is None else (*cut, "")
    if change.is_new:
        return patch.add_table(change.path, change.value)
    return patch.put(change.path, change.value) if patch.stands(change.path[:-1]) else None


def _made(text: str, data: dict[str, Any], change: Change) -> str:
    if change.value is None:
        return _without(Spliced(text, data), change.path)
    patch = Spliced(text, data)
    if change.is_name:
        return patch.rename(change.path, change.value)
    if change.is_new:
        return patch.edited([patch.add_table(change.path, change.value)])
    return patch.edited([patch.put(change.path, change.value)])


def _set(data: dict[str, Any], path: KeyPath, value: Any) -> None:
    """Make the data what it should be after the change."""
    inner = data
    for key in path[:-1]:
        inner = inner.setdefault(key, {})
        if not isinstance(inner, dict):
            message = f"{key} holds a value, not a table"
            raise ValueError(message)  # noqa: TRY004 - the file is at fault, told with the rest
    if value is None:
        inner.pop(path[-1], None)
    else:
        inner[path[-1]] = deepcopy(value)


def _rename(data: dict[str, Any], path: KeyPath, name: str) -> None:
    inner = data
    for key in path[:-1]:
        inner = inner[key]
    held = list(inner.items())
    inner.clear()
    inner.update((name if key == path[-1] else key, value) for key, value in held)


def _without(patch: Spliced, path: KeyPath) -> str:
    while (cut := patch.cut(path)) is not None:
        patch = Spliced(patch.text[: cut[0]] + patch.text[cut[1] :], {})
    return patch.text


def _same(one: Any, other: Any) -> bool:
    """Tell whether two values are the same in TOML: 1 is not 1.0, and empty tables are nothing."""
    if isinstance(one, dict) and isinstance(other, dict):
        keys = one.keys() | other.keys()
        return all(_same(one.get(key, {}), other.get(key, {})) for key in keys)
    if isinstance(one, Sequence) and not isinstance(one, str):
        alike = isinstance(other, Sequence) and not isinstance(other, str)
        return alike and len(one) == len(other) and all(map(_same, one, other))
    return type(one) is type(other) and (one == other or repr(one) == repr(other))
