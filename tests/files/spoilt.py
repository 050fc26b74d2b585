"""Spoils the files of a pattern in a seeded way; ``judged`` says what may come of it."""

import re
from pathlib import Path
from random import Random

from files.golden import GOLDEN
from files.small_cuff import texts

from armorplan.kernel.shipped import samples_folder


def _files(folder: Path) -> dict[str, bytes]:
    named = (p for p in sorted(folder.iterdir()) if p.suffix in {".toml", ".svg"})
    return {p.name: p.read_bytes() for p in named}


SMALL = {name: text.encode() for name, text in texts().items()}
SOUND = [SMALL] * 6 + [_files(GOLDEN / "first_words")] * 3
SOUND += [_files(GOLDEN / "every_word")]
SOUND += [_files(p.parent) for p in sorted(samples_folder().glob("*/pattern.toml"))]
"""Sound patterns to spoil, the small ones more often."""


def spoil(seed: int) -> dict[str, bytes]:
    """Return the files of a sound pattern, spoilt in one to three places."""
    chance = Random(seed)  # noqa: S311 - the same spoiling for the same seed
    files = dict(chance.choice(SOUND))
    for _ in range(chance.choice((1, 1, 2, 3))):
        name = chance.choice(sorted(files))
        how = chance.choice(_TOML if name.endswith(".toml") else _SVG)
        if chance.random() < 0.3:
            how = chance.choice(_BYTES)
        files[name] = how(files[name], chance)
    return files


def _cut(data, chance):
    return data[: chance.randint(0, len(data))]


def _flip(data, chance):
    at = chance.randrange(len(data) or 1)
    return data[:at] + bytes([chance.randrange(256)]) + data[at + 1 :]


def _insert(data, chance):
    at = chance.randint(0, len(data))
    return data[:at] + chance.choice(_TOKENS) + data[at:]


def _drop(data, chance):
    at = chance.randint(0, len(data))
    return data[:at] + data[at + chance.randint(1, 200) :]


def _double(data, chance):
    at, size = chance.randint(0, len(data)), chance.randint(1, 2000)
    return data[:at] + data[at : at + size] + data[at:]


def _recode(data, chance):
    text = data.decode("utf-8", "replace")
    coding = chance.choice(("utf-16", "utf-16-le", "utf-32", "latin-1", "utf-8-sig", "cp1252"))
    return text.encode(coding, "replace")


def _windows(data, _chance):
    return data.replace(b"\r\n", b"\n").replace(b"\n", b"\r\n")


def _old_mac(data, _chance):
    return data.replace(b"\n", b"\r")


def _swap_lines(data, chance):
    lines = data.split(b"\n")
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]
    return b"\n".join(lines)


_TOKENS = (
    b'"', b"'", b"[", b"]", b"{", b"=", b"\n", b"1e999", b"nan", b"<", b"/>", b"&", b"\0", b"#",
    b'"""', b"\xff", b"true", b"<g>", b"</g>", b"<!DOCTYPE x [", b"]]>", b"<![CDATA[", b"--",
    b'<use href="#plate"/>', b'transform="scale(-1e200)"', b"&#0;", b"&lt;", b"\xe2\x80\xae",
)  # fmt: skip
_BYTES = (
    _cut, _flip, _insert, _drop, _double, _recode, _windows, _old_mac, _swap_lines,
)  # fmt: skip

_VALUE = re.compile(rb"(?m)^(\s*[\w-]+ *= *)(.+)$")
_VALUES = (
    b"nan", b"inf", b"-inf", b"-1", b"0", b"1e308", b"99999999999999999999", b"true", b'""', b"[]",
    b"{}", b"[[1, 2], [3, 4]]", b'"../../etc/passwd"', b"2024-01-01", b'["a", "a"]', b'"\\u0000"',
    b'"8-9 oz"', b'["nan"]', b"0.0000001", b"1000000", b'"x"', b"[nan, nan]", b"[9, 1]", b'"left"',
    b'"sliding"', b'"hardened"', b'["look.plain"]', b"360", b"1e6",
)  # fmt: skip


def _other_value(data, chance):
    return _at_one(data, _VALUE, lambda m: m[1] + chance.choice(_VALUES), chance)


def _borrowed_value(data, chance):
    """Give one key the value of another: of the right type, often, and of the wrong meaning."""
    values = [m[2] for m in _VALUE.finditer(data)] or [b"1"]
    return _at_one(data, _VALUE, lambda m: m[1] + chance.choice(values), chance)


def _no_line(data, chance):
    lines = data.split(b"\n")
    del lines[chance.randrange(len(lines))]
    return b"\n".join(lines)


def _line_again(data, chance):
    lines = data.split(b"\n")
    lines.insert(chance.randrange(len(lines)), chance.choice(lines))
    return b"\n".join(lines)


def _other_header(data, chance):
    heads = [m[0] for m in re.finditer(rb"(?m)^\[.+\]$", data)] or [b"[x]"]
    pattern = re.compile(rb"(?m)^\[.+\]$")
    return _at_one(data, pattern, lambda _m: chance.choice(heads), chance)


def _newer(data, chance):
    return data.replace(b"format = 1", b"format = %d" % chance.choice((0, 2, 10**30)), 1)


def _outside(data, chance):
    names = (
        b'"../secret.svg"',
        b'"/etc/hosts.svg"',
        b'"link.svg"',
        b'"a\\\\b.svg"',
        b'"C:/x.svg"',
    )
    return re.sub(rb"drawings = \[.*\]", lambda _: b"drawings = [%s]" % chance.choice(names), data)


_TOML = (
    _other_value, _other_value, _borrowed_value, _borrowed_value, _borrowed_value, _no_line,
    _line_again, _other_header, _newer, _outside,
)  # fmt: skip

_NUMBER = re.compile(rb"(?<![\w.])-?\d+(?:\.\d+)?(?![\w.])")
_ATTRIBUTE = re.compile(rb' [\w:]+="[^"]*"')
_ID = re.compile(rb' id="([^"]*)"')
_LENGTHS = (b"1in", b"10cm", b"100%", b"50px", b"0mm", b"-5mm", b"1e9mm", b"nanmm", b"12", b"3pc")
_MOVES = (
    b"scale(-1)", b"scale(0)", b"scale(2,1)", b"rotate(33)", b"matrix(1 0 0 1 nan 0)", b"skewX(89)",
    b"translate(1e300)", b"matrix(1 2", b"rotate(1e400)", b"scale(1e-9)",
)  # fmt: skip


def _other_number(data, chance):
    numbers = (
        b"nan",
        b"1e999",
        b"-1e308",
        b"0",
        b"1e-300",
        b"99999",
        b"12.5",
        b"--3",
        b"1e",
        b".",
    )
    return _at_one(data, _NUMBER, lambda _m: chance.choice(numbers), chance)


def _no_attribute(data, chance):
    return _at_one(data, _ATTRIBUTE, lambda _m: b"", chance)


def _other_id(data, chance):
    ids = [m[1] for m in _ID.finditer(data)] or [b"x"]
    return _at_one(data, _ID, lambda _m: b' id="%s"' % chance.choice(ids), chance)


def _other_size(data, chance):
    size = re.compile(rb'(width|height)="[^"]*mm"')
    return _at_one(data, size, lambda m: b'%s="%s"' % (m[1], chance.choice(_LENGTHS)), chance)


def _other_box(data, chance):
    boxes = (b"0 0 0 0", b"0 0 -5 5", b"nan 0 1 1", b"0 0 1", b"0,0,400,10", b"1e308 0 1e308 1")
    return re.sub(rb'viewBox="[^"]*"', lambda _: b'viewBox="%s"' % chance.choice(boxes), data)


def _moved(data, chance):
    tag = re.compile(rb"<(path|circle|rect|g|polygon)\b")
    return _at_one(data, tag, lambda m: m[0] + b' transform="%s"' % chance.choice(_MOVES), chance)


def _used(data, chance):
    ids = [m[1] for m in _ID.finditer(data)] or [b"x"]
    one, other = chance.choice(ids), chance.choice(ids)
    use = b'<g id="u1"><use href="#u2"/><use href="#%s" x="3"/></g>' % one
    use += b'<use id="u2" href="#u1"/><use id="%s" href="#%s"/>' % (other, one)
    return data.replace(b"</svg>", use + b"</svg>")


_SVG = (
    _other_number, _other_number, _no_attribute, _other_id, _other_size, _other_box, _moved, _used,
)  # fmt: skip


def _at_one(data, pattern, change, chance):
    places = list(pattern.finditer(data))
    if not places:
        return data
    place = chance.choice(places)
    return data[: place.start()] + change(place) + data[place.end() :]
