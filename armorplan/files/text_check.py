"""Tells bytes that are not UTF-8 text, and what they seem to be instead."""

import codecs

from armorplan.kernel.findings import Finding, Place, Severity

_OTHER_MARKS = (
    (codecs.BOM_UTF32_LE, "UTF-32"),
    (codecs.BOM_UTF32_BE, "UTF-32"),
    (codecs.BOM_UTF16_LE, "UTF-16"),
    (codecs.BOM_UTF16_BE, "UTF-16"),
    (b"<\0", "UTF-16"),
    (b"\0<", "UTF-16"),
)
_HEAD = 400
_GZIP = b"\x1f\x8b"


def is_utf16(head: bytes) -> bool:
    """Tell whether every other byte is zero, as in plain words in UTF-16 without its mark."""
    halves = head[::2], head[1::2]
    return len(head) > 1 and any(
        half.count(0) == len(half) and other.count(0) == 0
        for half, other in (halves, halves[::-1])
    )


def why_not_text(name: str, data: bytes) -> Finding | None:
    """Return the finding that says why a file is not UTF-8 text, or ``None`` where it is."""
    code, text, mend, line = _fault(data)
    if not code:
        return None
    return Finding(
        code=code,
        severity=Severity.ERROR,
        text=f"{name} {text}.",
        remedy=mend,
        place=Place(file=name, line=line),
    )


def _fault(data: bytes) -> tuple[str, str, str, int | None]:
    """Return code, what is wrong, remedy and line; an empty code where nothing is wrong."""
    save = "Save it as plain text in UTF-8."
    other = next((coding for mark, coding in _OTHER_MARKS if data.startswith(mark)), None)
    if other is None and is_utf16(data[:_HEAD]):
        other = "UTF-16"
    if not data.strip():
        return "empty-file", "is empty", "Save the file again, or bring back a copy.", None
    if data.startswith(_GZIP):
        return "binary-file", "is compressed", "Save it as plain SVG, not as SVGZ.", None
    if other:
        return "not-utf8", f"is text in {other}; only UTF-8 is read", save, None
    if b"\0" in data:
        return "binary-file", "is not text: it holds zero bytes", save, None
    try:
        data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        return "not-utf8", f"is not UTF-8 text (byte {data[error.start]:#04x})", save, line
    return "", "", "", None
