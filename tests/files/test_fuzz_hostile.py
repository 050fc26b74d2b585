"""Files made to hurt: huge, deep, cyclic, leading outside, not what they seem. One message each."""

import os

import pytest
from files.judged import judge, put
from files.small_cuff import CUFF_SVG, CUFF_TOML, OPEN_SVG
from files.spoilt import SMALL

BOMB = (
    '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">'
    + "".join(
        f'<!ENTITY {b} "{f"&{a};" * 10}">' for a, b in zip("abcdefgh", "bcdefghi", strict=True)
    )
    + f"]>{OPEN_SVG}<text>&i;</text></svg>"
)
FETCHED = (
    '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]>'
    f"{OPEN_SVG}<text>&x;</text></svg>"
)


def svg(body, head=OPEN_SVG):
    return f"{head}{body}</svg>"


def many_uses(n):
    return f'<use href="#u{n}"/>' * 10


def rects(count, make):
    return "".join(f'<rect id="r{n}" {make(n)}/>' for n in range(count))


def nested(n):
    return f'x="{n / 100}" y="{n / 100}" width="{90 - n / 50}" height="{90 - n / 50}"'


def overlapping(n):
    return f'x="{n / 100}" y="{n / 100}" width="90" height="90"'


def apart(n):
    return f'x="{n % 60 * 3}" y="{n // 60 * 3}" width="2" height="{2 + n / 10000}"'


def graded(n):
    return f'x="{n % 30 * 4}" y="{n // 30 * 2.9}" width="3.9" height="{1.9 + n * 0.0009}"'


PLATE = '<rect id="p" width="90" height="90"/>'
DRAWINGS = {
    "entities that multiply": (BOMB, "unsafe-xml"),
    "an entity from a file": (FETCHED, "unsafe-xml"),
    "an outer document type": (
        '<!DOCTYPE svg SYSTEM "file:///etc/hostname">'
        + svg('<rect id="p" width="9" height="9"/>'),
        "",
    ),
    "fifty megabytes": (svg(f"<!--{'x' * 50_000_000}-->"), "too-large"),
    "groups a million deep": (OPEN_SVG + "<g>" * 1_000_000, "drawing-limit"),
    "more elements than are read": (svg("<g/>" * 60_000), "drawing-limit"),
    "a use of itself": (svg('<use id="a" href="#a"/>'), "use-of-itself"),
    "uses in a circle": (
        svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'),
        "use-of-itself",
    ),
    "uses that multiply": (
        svg(
            '<g id="u0"><rect width="1" height="1"/></g>'
            + "".join(f'<g id="u{n + 1}">{many_uses(n)}</g>' for n in range(8))
        ),
        "drawing-limit",
    ),
    "a path of many letters": (svg(f'<path id="p" d="M 0 0 {"L 1 1 " * 60_000}"/>'), ""),
    "a path of many loops": (
        svg(
            f'<path id="p" d="M 0 0 {"".join(f"L {n % 89} {n % 97} " for n in range(20_000))}Z"/>'
        ),
        "",
    ),
    "outlines in outlines": (svg(rects(2_000, nested)), "drawing-limit"),
    "outlines over outlines": (svg(rects(2_000, overlapping)), "drawing-limit"),
    "a hundred parts nearly alike": (svg(rects(100, apart)), ""),
    "more parts than are read": (svg(rects(1_900, apart)), "too-many-parts"),
    "circles on one spot": (svg(PLATE + '<circle cx="5" cy="5" r="1"/>' * 2_000), ""),
    "arcs of no size": (svg('<path id="p" d="M0 0A1e-300 1e300 1e9 1 1 1e-9 0Z"/>'), "no-outline"),
    "no numbers": (svg('<path id="p" d="M nan inf L 1 1 2 2Z"/>'), "no-outline"),
    "huge numbers": (svg('<rect id="p" x="1e308" width="1e308" height="1e308"/>'), "no-outline"),
    "mixed units": (svg('<rect id="p" x="1in" width="9cm" height="9mm"/>'), "no-outline"),
    "an empty page": (svg(""), "no-outline"),
    "no svg": ("<html></html>", "not-an-svg"),
    "not even xml": ("plate 30 x 40", "broken-xml"),
}


LARGEST = {
    "a path of three million letters": svg(f'<path id="p" d="M 0 0 {"L 1 1 " * 500_000}"/>'),
    "fifty thousand circles": svg(PLATE + '<circle cx="5" cy="5" r="1"/>' * 49_000),
    "a thousand parts nearly alike": svg(rects(1_000, apart)),
    "a thousand parts of one size": svg(rects(1_000, graded)),
}


@pytest.mark.long
@pytest.mark.parametrize("name", sorted(LARGEST))
def test_the_largest_that_is_read(tmp_path, name):
    put(
        tmp_path / "p",
        {"x.svg": LARGEST[name].encode(), **SMALL, "cuff.svg": LARGEST[name].encode()},
    )
    assert judge(tmp_path / "p" / "x.svg", tmp_path / "p")
    assert judge(tmp_path / "p")


@pytest.mark.parametrize("name", sorted(DRAWINGS))
def test_a_bare_drawing_made_to_hurt(tmp_path, name):
    text, code = DRAWINGS[name]
    put(tmp_path / "p", {"x.svg": text.encode()})
    found = judge(tmp_path / "p" / "x.svg", tmp_path / "p")
    assert found
    assert not code or code in found


@pytest.mark.parametrize("name", sorted(DRAWINGS))
def test_a_pattern_with_a_drawing_made_to_hurt(tmp_path, name):
    put(tmp_path / "p", {**SMALL, "cuff.svg": DRAWINGS[name][0].encode()})
    assert judge(tmp_path / "p")


MARKED = {
    "utf-16": "not-utf8",
    "utf-16-be": "not-utf8",
    "utf-32": "not-utf8",
    "latin-1": "not-utf8",
}


@pytest.mark.parametrize("coding", sorted(MARKED))
@pytest.mark.parametrize("name", ["pattern.toml", "cuff.svg"])
def test_other_encodings(tmp_path, coding, name):
    text = (
        SMALL[name].decode().replace("Cuff of", "Cüff of").replace("<rect", "<!-- ü --><rect", 1)
    )
    put(tmp_path / "p", {**SMALL, name: text.encode(coding)})
    assert MARKED[coding] in judge(tmp_path / "p")


@pytest.mark.parametrize("ending", ["\r\n", "\r"])
def test_line_ends_of_other_systems(tmp_path, ending):
    put(tmp_path / "p", {n: d.replace(b"\n", ending.encode()) for n, d in SMALL.items()})
    codes = judge(tmp_path / "p")
    assert ("toml-syntax" in codes) is (ending == "\r")


TABLES = {
    "lists in lists": "x = " + "[" * 100_000,
    "tables in tables": "x = " + "{a=" * 100_000,
    "a long dotted key": "[" + "a." * 100_000 + "a]",
    "a million keys": "".join(f"k{n} = 1\n" for n in range(180_000)),
    "fifty megabytes": CUFF_TOML + "#" * 50_000_000,
    "a newer version": CUFF_TOML.replace("format = 1", "format = 2"),
    "a version beyond counting": CUFF_TOML.replace("format = 1", f"format = {'9' * 5_000}"),
    "an id twice": CUFF_TOML + '[parts.plate]\nname = "again"\n',
    "numbers that are none": CUFF_TOML.replace("= 45", "= nan").replace("= 3.2", "= inf"),
    "a table in place of a list": CUFF_TOML.replace('["strap_1", "plate_1"]', "{a = 1}"),
    "pieces that are no tables": CUFF_TOML.replace("[pieces.cuff]", "[pieces]\ncuff = 3\n[x]"),
    "ids with strange marks": CUFF_TOML.replace("[parts.loop]", '[parts."../../x y\\n\\u202e"]'),
    "coats beyond counting": CUFF_TOML.replace("coats = 2", "coats = 1000000000000"),
    "more coats than leather takes": CUFF_TOML.replace("coats = 2", "coats = 360"),
    "many parts": CUFF_TOML
    + "".join(
        f'[parts.q{n}]\nname="q"\npiece="cuff"\nkind="plate"\nmaterial="strap_leather"\n'
        for n in range(5_000)
    ),
}


@pytest.mark.parametrize("name", sorted(TABLES))
def test_tables_made_to_hurt(tmp_path, name):
    put(tmp_path / "p", {**SMALL, "pattern.toml": TABLES[name].encode()})
    assert judge(tmp_path / "p")


@pytest.mark.parametrize(
    "named",
    [
        "../secret.svg",
        "link.svg",
        "/etc/hostname.svg",
        "a/../../secret.svg",
        "C:\\\\x.svg",
        "loop.svg",
    ],
)
def test_names_that_leave_the_folder_are_not_followed(tmp_path, named):
    toml = CUFF_TOML.replace('["cuff.svg"]', f'["cuff.svg", "{named}"]')
    put(tmp_path / "p", {**SMALL, "pattern.toml": toml.encode()})
    (tmp_path / "p" / "loop.svg").symlink_to(tmp_path / "p" / "loop.svg")
    assert "leaves-folder" in judge(tmp_path / "p")


def test_a_pattern_file_that_is_a_link_is_not_followed(tmp_path):
    put(tmp_path / "p", {"cuff.svg": CUFF_SVG.encode()})
    (tmp_path / "pattern.toml").write_text(CUFF_TOML, encoding="utf-8")
    (tmp_path / "p" / "pattern.toml").symlink_to(tmp_path / "pattern.toml")
    assert judge(tmp_path / "p") == ("leaves-folder",)


def test_folders_and_pipes_in_place_of_files(tmp_path):
    put(tmp_path / "p", {"pattern.toml": CUFF_TOML.encode()})
    os.mkfifo(tmp_path / "p" / "cuff.svg")
    assert judge(tmp_path / "p") == ("not-a-file",)
    put(tmp_path / "q", {"cuff.svg": CUFF_SVG.encode()})
    (tmp_path / "q" / "pattern.toml").mkdir()
    assert judge(tmp_path / "q") == ("not-a-file",)


@pytest.mark.parametrize("name", ["", "x" * 5_000, "a\0b", "none", "pattern.toml"])
def test_paths_that_are_no_pattern(tmp_path, name):
    put(tmp_path / "p", SMALL)
    (code,) = (
        judge(tmp_path / "p" / "p" / name, tmp_path)
        if name == ""
        else judge(tmp_path / "p" / name, tmp_path)
    )
    assert code in {"folder-missing", "not-a-folder"}
