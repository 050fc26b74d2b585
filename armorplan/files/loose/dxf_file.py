"""Loads a DXF file of any version from R12 on, as text or binary; a damaged one is recovered."""

import io
import logging
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from armorplan.files.faults import brief
from armorplan.files.file_bytes import unreadable
from armorplan.kernel.errors import StoppedError, UnreadableError
from armorplan.kernel.findings import Place
from armorplan.kernel.stopping import ShouldStop, go_on

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.lldxf.types import DXFTag

_EVERY = 4096
_END, _TAIL = b"EOF", 200
_DAMAGED = re.compile(r'value "(.*)" near line (\d+)', re.DOTALL)
_NO_NUMBER = re.compile(
    r"Invalid (?:floating point values|tag \(.*\)) near line: (\d+)", re.DOTALL
)
_SILENT = logging.NullHandler()
_UTF8_FROM = "AC1021"
"""From R2007 on the text of every file is UTF-8 (DXF reference, $ACADVER)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """A DXF drawing; ``damaged`` says in words which of its numbers are none."""

    drawing: "Drawing"
    damaged: tuple[str, ...] = ()


def loaded(name: str, data: bytes, *, binary: bool, should_stop: ShouldStop) -> Loaded:
    """Return the drawing that a file holds.

    Raises:
        UnreadableError: it cannot be read even in part.
        StoppedError: the reading was no longer wanted.
    """
    if binary:
        return _guarded(name, lambda: _binary(data, should_stop))
    try:
        return _strict(data, should_stop)
    except StoppedError:
        raise
    except Exception:  # noqa: BLE001 - whatever a damaged file sets off, it is tried again
        go_on(should_stop)
    return _guarded(name, lambda: _recovered(data, should_stop))


def _guarded(name: str, work: Callable[[], Loaded]) -> Loaded:
    try:
        return work()
    except StoppedError:
        raise
    except Exception as error:
        raise _broken(name, str(error)) from error


def _strict(data: bytes, should_stop: ShouldStop) -> Loaded:
    from ezdxf.document import Drawing
    from ezdxf.filemanagement import dxf_stream_info

    head = io.StringIO(data[:200_000].decode("utf-8", errors="ignore"))
    info = dxf_stream_info(head)
    encoding = "utf-8" if info.version >= _UTF8_FROM else info.encoding
    text = _AskedText(data.decode(encoding, errors="surrogateescape"), should_stop)
    return Loaded(drawing=Drawing.read(text))


def _recovered(data: bytes, should_stop: ShouldStop) -> Loaded:
    from ezdxf import recover

    # What the library notes on the way is told as a finding, not printed beside the answer.
    logging.getLogger("ezdxf").addHandler(_SILENT)
    drawing, audit = recover.read(_AskedBytes(_ended(data), should_stop))
    damaged = (_DAMAGED.search(error.message) for error in audit.errors)
    told = (f'"{brief(m[1])}" near line {m[2]}' for m in damaged if m and not _is_number(m[1]))
    return Loaded(drawing=drawing, damaged=tuple(dict.fromkeys(told)))


def _is_number(word: str) -> bool:
    try:
        float(word)
    except ValueError:
        return False
    return True


def _ended(data: bytes) -> bytes:
    """Return the text with an end, where it was cut off: what has none loses its last section."""
    if _END in data[-_TAIL:]:
        return data
    lines = data.splitlines()
    # Codes and values come in pairs; what stands behind the last whole pair is half a number.
    whole = lines[: len(lines) // 2 * 2 - 2]
    return b"\n".join((*whole, b"0", b"ENDSEC", b"0", _END, b""))


def _binary(data: bytes, should_stop: ShouldStop) -> Loaded:
    from ezdxf.document import Drawing
    from ezdxf.lldxf.tagger import binary_tags_loader

    def asked() -> "Iterator[DXFTag]":
        for count, tag in enumerate(binary_tags_loader(data)):
            if count % _EVERY == 0:
                go_on(should_stop)
            yield tag

    return Loaded(drawing=Drawing.load(asked()))


class _AskedText(io.StringIO):
    """Text that is read line by line, asking now and then whether to go on."""

    def __init__(self, text: str, should_stop: ShouldStop) -> None:
        super().__init__(text.replace("\r\n", "\n"))
        self._should_stop = should_stop
        self._count = 0

    def readline(self, size: int | None = -1, /) -> str:  # type: ignore[override]
        """Return the next line."""
        self._count += 1
        if self._count % _EVERY == 0:
            go_on(self._should_stop)
        return super().readline(-1 if size is None else size)


class _AskedBytes(io.BytesIO):
    """Bytes that are read line by line, asking now and then whether to go on."""

    def __init__(self, data: bytes, should_stop: ShouldStop) -> None:
        super().__init__(data)
        self._should_stop = should_stop
        self._count = 0

    def readline(self, size: int | None = -1, /) -> bytes:
        """Return the next line."""
        self._count += 1
        if self._count % _EVERY == 0:
            go_on(self._should_stop)
        return super().readline(-1 if size is None else size)


def _broken(name: str, why: str) -> UnreadableError:
    line = _NO_NUMBER.search(why)
    told = f"what should be a number near line {line[1]} is none" if line else brief(why)
    return unreadable(
        "broken-dxf",
        f"{brief(name)} is no sound DXF drawing: {told.rstrip('.') or 'it ends too early'}.",
        mend="Save it again as DXF in the program it was drawn with, or bring back a copy.",
        place=Place(file=name),
    )
