import os
import unicodedata
from hashlib import sha256

import pytest
from files.small_cuff import CUFF_SVG, CUFF_TOML, SHELF, texts
from hypothesis import given
from hypothesis import strategies as st

from armorplan.files import file_bytes, source
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PatternFiles, content_hash, from_texts, read_folder
from armorplan.kernel.errors import UnreadableError


@pytest.fixture
def folder(tmp_path):
    home = tmp_path / "cuff"
    home.mkdir()
    (home / "pattern.toml").write_bytes(CUFF_TOML.encode())
    (home / "cuff.svg").write_bytes(CUFF_SVG.encode())
    return home


def _codes(folder):
    with pytest.raises(UnreadableError) as caught:
        read_folder(folder)
    assert str(caught.value)
    return [f.code for f in caught.value.findings]


def _name_drawings(folder, *names):
    listed = ", ".join(f"'{name}'" for name in names)
    text = CUFF_TOML.replace('["cuff.svg"]', f"[{listed}]")
    (folder / "pattern.toml").write_text(text, encoding="utf-8")


def test_reads_pattern_and_named_drawings_only(folder):
    (folder / "other.svg").write_text("not read", encoding="utf-8")
    (folder / "notes.toml").write_text("not read", encoding="utf-8")
    found = read_folder(folder)
    assert found == from_texts("cuff", texts())


def test_drawings_may_lie_in_a_folder_inside(folder):
    (folder / "sheets").mkdir()
    (folder / "cuff.svg").rename(folder / "sheets" / "cuff.svg")
    _name_drawings(folder, "sheets/cuff.svg")
    assert [name for name, _ in read_folder(folder).files] == ["pattern.toml", "sheets/cuff.svg"]


def test_slug_is_the_folder_name_even_for_a_dot_path(folder, monkeypatch):
    monkeypatch.chdir(folder)
    assert read_folder(folder / ".").slug == "cuff"


def test_missing_folder(tmp_path):
    assert _codes(tmp_path / "nowhere") == ["folder-missing"]


@pytest.mark.parametrize("name", ["a\0b", "x" * 5000])
def test_impossible_folder_names_count_as_missing(tmp_path, name):
    assert _codes(tmp_path / name) == ["folder-missing"]


def test_file_instead_of_folder(folder):
    assert _codes(folder / "pattern.toml") == ["not-a-folder"]


def test_no_pattern_file_names_what_is_there(tmp_path):
    (tmp_path / "patern.toml").write_text("format = 1", encoding="utf-8")
    with pytest.raises(UnreadableError, match="patern\\.toml"):
        read_folder(tmp_path)


def test_no_svg_at_all(folder):
    (folder / "cuff.svg").unlink()
    _name_drawings(folder)
    with pytest.raises(UnreadableError, match="holds no SVG file"):
        read_folder(folder)


def test_no_drawing_named_points_at_the_one_there_is(folder):
    _name_drawings(folder)
    with pytest.raises(UnreadableError, match=r'Add drawings = \["cuff.svg"\]'):
        read_folder(folder)


def test_all_missing_drawings_are_told_at_once(folder):
    _name_drawings(folder, "cuff.svg", "back.svg", "front.svg")
    assert _codes(folder) == ["no-such-file", "no-such-file"]


@pytest.mark.parametrize(
    "name", ["../cuff.svg", "sub/../../cuff.svg", "/etc/cuff.svg", "..\\cuff.svg", "C:/cuff.svg"]
)
def test_names_that_leave_the_folder_are_not_read(folder, name):
    (folder.parent / "cuff.svg").write_text(CUFF_SVG, encoding="utf-8")
    _name_drawings(folder, name)
    assert _codes(folder) == ["leaves-folder"]


def test_absolute_name_of_a_file_inside_is_refused_too(folder):
    _name_drawings(folder, str(folder / "cuff.svg"))
    assert _codes(folder) == ["leaves-folder"]


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_links_out_of_the_folder_are_not_followed(folder):
    outside = folder.parent / "outside.svg"
    outside.write_text(CUFF_SVG, encoding="utf-8")
    (folder / "cuff.svg").unlink()
    (folder / "cuff.svg").symlink_to(outside)
    assert _codes(folder) == ["leaves-folder"]


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_pattern_file_that_links_out_and_one_that_links_to_itself(folder):
    (folder / "pattern.toml").rename(folder.parent / "pattern.toml")
    (folder / "pattern.toml").symlink_to(folder.parent / "pattern.toml")
    assert _codes(folder) == ["leaves-folder"]
    (folder / "pattern.toml").unlink()
    (folder / "pattern.toml").symlink_to(folder / "pattern.toml")
    assert _codes(folder)[0] in {"leaves-folder", "cannot-read"}


def test_link_inside_the_folder_is_fine(folder):
    (folder / "cuff.svg").rename(folder / "real.svg")
    (folder / "cuff.svg").symlink_to("real.svg")
    assert read_folder(folder).as_texts() == texts()


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes there")
def test_a_pipe_is_not_read(folder):
    (folder / "cuff.svg").unlink()
    os.mkfifo(folder / "cuff.svg")
    assert _codes(folder) == ["not-a-file"]


def test_a_folder_named_like_a_drawing(folder):
    (folder / "cuff.svg").unlink()
    (folder / "cuff.svg").mkdir()
    assert _codes(folder) == ["not-a-file"]


def test_unreadable_by_permission(folder, monkeypatch):
    # Set off in the reader: a test that runs as root may read everything.
    def refuse(path, count):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(file_bytes, "_head", refuse)
    with pytest.raises(UnreadableError, match="Permission denied"):
        read_folder(folder)


def test_too_large(folder, monkeypatch):
    monkeypatch.setattr(source, "MAX_DRAWING_BYTES", 500)
    with pytest.raises(UnreadableError, match="more than 500 bytes"):
        read_folder(folder)


def test_drawings_too_large_together(folder, monkeypatch):
    (folder / "back.svg").write_text(CUFF_SVG, encoding="utf-8")
    _name_drawings(folder, "cuff.svg", "back.svg")
    monkeypatch.setattr(source, "MAX_FOLDER_BYTES", len(CUFF_SVG) + 10)
    assert _codes(folder) == ["too-large"]


def test_too_many_drawings(folder):
    _name_drawings(folder, *(f"{n}.svg" for n in range(51)))
    assert _codes(folder) == ["too-many-drawings"]


def test_a_drawing_that_is_no_svg_by_name(folder):
    _name_drawings(folder, "cuff.png", "cuff.svg")
    assert _codes(folder) == ["not-an-svg"]


@pytest.mark.parametrize(
    ("data", "code", "says"),
    [
        (b"", "empty-file", "is empty"),
        (b" \r\n\t", "empty-file", "is empty"),
        (b"\x1f\x8b\x08\0rest", "binary-file", "SVGZ"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "binary-file", "zero bytes"),
        (CUFF_SVG.encode("utf-16"), "not-utf8", "UTF-16"),
        (CUFF_SVG.encode("utf-16-be"), "not-utf8", "UTF-16"),
        (CUFF_SVG.encode("utf-32"), "not-utf8", "UTF-32"),
        ("\n# none\n".encode("utf-16-le"), "not-utf8", "UTF-16"),
        (("x" * 900).encode("utf-16-be"), "not-utf8", "UTF-16"),
        (b"ab\0cd", "binary-file", "zero bytes"),
        (b"<svg>\n<title>caf\xe9</title></svg>", "not-utf8", "cuff.svg:2"),
    ],
)
def test_what_is_not_text(folder, data, code, says):
    (folder / "cuff.svg").write_bytes(data)
    with pytest.raises(UnreadableError) as caught:
        read_folder(folder)
    assert [f.code for f in caught.value.findings] == [code]
    assert says in str(caught.value)


def test_pattern_file_that_is_not_text(folder):
    (folder / "pattern.toml").write_bytes(CUFF_TOML.encode("utf-16"))
    assert _codes(folder) == ["not-utf8"]


def test_a_pattern_file_with_a_syntax_error_comes_back_alone(folder):
    (folder / "pattern.toml").write_text("format = ", encoding="utf-8")
    assert [name for name, _ in read_folder(folder).files] == ["pattern.toml"]


def test_drawings_of_a_wrong_type_come_back_alone(folder):
    (folder / "pattern.toml").write_text("[pattern]\ndrawings = 3\n", encoding="utf-8")
    assert [name for name, _ in read_folder(folder).files] == ["pattern.toml"]


@pytest.mark.parametrize("text", ["\ufeff" + CUFF_TOML, CUFF_TOML.replace("\n", "\r\n")])
def test_mark_and_line_ends_survive_a_snapshot(folder, text):
    (folder / "pattern.toml").write_bytes(text.encode())
    found = read_folder(folder)
    assert dict(found.files)["pattern.toml"] == text.encode()
    assert from_texts("cuff", found.as_texts()) == found


def test_texts_of_bytes_that_are_none(folder):
    with pytest.raises(UnreadableError):
        PatternFiles(slug="x", files=(("a.svg", b"\xff\0"),)).as_texts()


@given(
    st.dictionaries(
        st.text(st.characters(codec="utf-8"), min_size=1),
        st.text(st.characters(codec="utf-8", exclude_characters="\0")).filter(
            lambda t: t.encode().strip() and not t.startswith(("\0", "<\0"))
        ),
        max_size=4,
    )
)
def test_snapshots_lose_nothing(contents):
    files = from_texts("cuff", contents)
    assert files.as_texts() == contents
    again = from_texts("cuff", dict(reversed(files.as_texts().items())))
    assert again == files
    assert content_hash(again) == content_hash(files)


def test_the_hash_is_that_of_the_framed_contents():
    files = from_texts("x", {"b": "2", "a": "1"})
    framed = b"".join(len(x).to_bytes(8, "big") + x for x in (b"a", b"1", b"b", b"2"))
    assert content_hash(files) == sha256(framed).hexdigest()


@pytest.mark.parametrize(
    "other",
    [
        {"pattern.toml": "ab", "x.svg": "c"},
        {"pattern.toml": "a", "x.svg": "cb"},
        {"pattern.tomla": "b", "x.svg": "c"},
        {"pattern.toml": "a\r\nb", "x.svg": "c"},
        {"pattern.toml": unicodedata.normalize("NFD", "é"), "x.svg": "c"},
    ],
)
def test_the_hash_tells_names_and_contents_apart(other):
    base = {"pattern.toml": "a", "x.svg": "bc"}
    assert content_hash(from_texts("x", base)) != content_hash(from_texts("x", other))


def test_a_misspelt_head_is_told_as_that_and_not_as_lacking_drawings(folder):
    text = CUFF_TOML.replace("[pattern]", "[patern]")
    (folder / "pattern.toml").write_text(text, encoding="utf-8")
    (fault,) = read_pattern(read_folder(folder), SHELF).findings
    assert fault.text == "There is no table [patern]; perhaps [pattern] is meant."
