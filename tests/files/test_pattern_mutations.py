"""Whatever happens to the files, the reader answers with findings or a pattern."""

import pytest
from files.small_cuff import CUFF_SVG, CUFF_TOML, OPEN_SVG, SHELF, texts
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PATTERN_FILE, PatternFiles, from_texts, read_folder
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import has_errors

TOKENS = st.sampled_from(
    [b'"', b"'", b"[", b"]", b"{", b"=", b"\n", b"-", b"1e999", b"nan", b"<", b"/>", b"&", b"#", b"\0",
     b'"""', b"M", b"z", b"A", b"\xff", b"0", b".", b'id="plate"', b"<g>", b"</g>", b"true", b"\r",
     b'transform="scale(-1e200)"', b'<use href="#loop"/>', "ß".encode(), b"<!DOCTYPE x [", b"--"]
)  # fmt: skip


@st.composite
def mutations(draw):
    """A file and one change to it: cut off, bytes flipped, a token put in, a stretch taken out."""
    name, data = draw(st.sampled_from(sorted((n, t.encode()) for n, t in texts().items())))
    at = draw(st.integers(0, len(data)))
    match draw(st.sampled_from(["cut", "flip", "insert", "drop", "double"])):
        case "cut":
            return name, data[:at]
        case "flip":
            flipped = bytes(b ^ draw(st.integers(1, 255)) for b in data[at : at + 2])
            return name, data[:at] + flipped + data[at + 2 :]
        case "insert":
            return name, data[:at] + draw(TOKENS) + data[at:]
        case "drop":
            return name, data[:at] + data[at + draw(st.integers(1, 40)) :]
    return name, data[:at] + data[at : at + draw(st.integers(1, 60))] + data[at:]


def _check(read):
    """Read, which has to give findings or a pattern, and nothing else."""
    try:
        found = read_pattern(read(), SHELF)
    except UnreadableError as error:
        findings = error.findings
        unread = True
    else:
        findings = found.findings
        unread = found.pattern is None
    assert unread is has_errors(findings)
    for finding in findings:
        assert finding.text
        assert finding.remedy
        assert finding.place is not None
        assert len(str(finding)) < 1000


@given(st.lists(mutations(), min_size=1, max_size=2))
@settings(max_examples=60, deadline=None)
@example([("pattern.toml", b"\xef\xbb\xbf")])
def test_mutated_files_in_memory(changes):
    data = {name: text.encode() for name, text in texts().items()} | dict(changes)
    source = PatternFiles(slug="cuff", files=tuple(sorted(data.items())))
    _check(lambda: source)


@given(st.lists(mutations(), min_size=1, max_size=4))
@settings(max_examples=5000, deadline=None)
@pytest.mark.long
def test_mutated_files_at_length(changes):
    data = {name: text.encode() for name, text in texts().items()} | dict(changes)
    _check(lambda: PatternFiles(slug="cuff", files=tuple(sorted(data.items()))))


@given(mutations())
@settings(
    max_examples=24, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_mutated_folders(tmp_path, change):
    for name, text in texts().items():
        (tmp_path / name).write_bytes(text.encode())
    (tmp_path / change[0]).write_bytes(change[1])
    _check(lambda: read_folder(tmp_path))


TEXT = st.text(st.characters(codec="utf-8"), max_size=200)


@given(TEXT, TEXT)
@settings(max_examples=18, deadline=None)
def test_any_texts(toml, svg):
    _check(lambda: from_texts("cuff", {PATTERN_FILE: toml, "cuff.svg": svg}))


def test_names_are_guessed_at_a_few_times_only():
    # Looking for the nearest of thousands of names, thousands of times, took minutes.
    joint = '[joints.x{0}]\nkind = "rivet"\nfastener = "double_cup_8"\nstack = ["a{0}", "b{0}"]\n'
    toml = CUFF_TOML + "".join(joint.format(n) for n in range(2000))
    circles = "".join(
        f'<circle id="z{n}" cx="{n % 90 + 15}" cy="{n // 90 + 15}" r=".1"/>' for n in range(4000)
    )
    found = read_pattern(
        from_texts("cuff", texts(toml, CUFF_SVG.replace("</svg>", circles + "</svg>"))), SHELF
    )
    assert len(found.findings) >= 6000
    assert 0 < sum("Perhaps" in f.remedy for f in found.findings) <= 30


def test_parts_in_parts_in_parts():
    part = '[parts.p{0}]\nname = "p"\npiece = "cuff"\nkind = "plate"\nmaterial = "plate_leather"\n'
    toml = CUFF_TOML + "".join(part.format(n) for n in range(150))
    rings = "".join(
        f'<rect id="p{n}" x="{200 + n}" y="{n}" width="{400 - 2 * n}" height="{400 - 2 * n}"/>'
        f'<circle id="c{n}" cx="{200.5 + n}" cy="{n + 0.5}" r=".1"/>'
        for n in range(150)
    )
    head = OPEN_SVG.replace('"200mm"', '"600mm"').replace('"100mm"', '"400mm"')
    svg = CUFF_SVG.replace(OPEN_SVG, head.replace("0 0 200 100", "0 0 600 400"))
    found = read_pattern(
        from_texts("cuff", texts(toml, svg.replace("</svg>", rings + "</svg>"))), SHELF
    )
    assert {f.code for f in found.findings} == {"hole-unnamed"}
    assert all(found.pattern.hole(f"c{n}").part == f"p{n}" for n in range(150))
