"""Edits of a TOML text: what was asked for changes, and not one byte beside it."""

import tomllib
from copy import deepcopy
from difflib import SequenceMatcher

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.files.toml_patch import (
    Change,
    UnpatchableError,
    all_patched,
    patched,
    removed,
    with_table,
)
from armorplan.kernel.shipped import samples_folder

SAMPLES = [
    path.read_bytes().decode("utf-8") for path in sorted(samples_folder().glob("*/pattern.toml"))
]

KEPT = """\
# The lantern watch, in three hands.
format = 1   # for ever

[pattern]
name = 'Cuff "small"'   # literal quotes
notes = \"\"\"
two lines
of notes\"\"\"

# -- work of our own --

# Waxed by the apprentice.
[own_steps.wax]
  name = "wax the edge"  # with the soft cloth
  minutes = 5
cautions = [
  "hot wax",    # over water only
  # the second one is from the label
  "no flame"
]
# end of the wax

[options.dyed]
chosen = "dip"
[options.dyed.choices]
dip = { name = "dipped", times = { dye = 0.5 } }
wipe.name = "wiped"
"""
MANY_HANDS = (*SAMPLES, KEPT, KEPT.replace("\n", "\r\n"), "\ufeff" + KEPT)


def changed_lines(before: str, after: str) -> tuple[list[str], list[str]]:
    """Return the lines that went and the lines that came."""
    old, new = before.splitlines(keepends=True), after.splitlines(keepends=True)
    matched = SequenceMatcher(None, old, new, autojunk=False).get_opcodes()
    moved = [(i1, i2, j1, j2) for tag, i1, i2, j1, j2 in matched if tag != "equal"]
    return (
        [line for i1, i2, _, _ in moved for line in old[i1:i2]],
        [line for _, _, j1, j2 in moved for line in new[j1:j2]],
    )


@pytest.mark.parametrize(
    ("path", "value", "went", "came"),
    [
        (
            ("own_steps", "wax", "minutes"),
            7,
            ["  minutes = 5\n"],
            ["  minutes = 7\n"],
        ),
        (
            ("own_steps", "wax", "name"),
            "oil it",
            ['  name = "wax the edge"  # with the soft cloth\n'],
            ['  name = "oil it"  # with the soft cloth\n'],
        ),
        (("pattern", "name"), 'a "b"', None, ["name = 'a \"b\"'   # literal quotes\n"]),
        (("pattern", "name"), "it's", None, ['name = "it\'s"   # literal quotes\n']),
        (("pattern", "notes"), "two lines\nof text", ['of notes"""\n'], ['of text"""\n']),
        (
            ("own_steps", "wax", "cautions"),
            ["hot wax", "gloves", "no flame"],
            [],
            ['  "gloves",\n'],
        ),
        (
            ("own_steps", "wax", "cautions"),
            ["hot wax", "no flame", "air"],
            ['  "no flame"\n'],
            ['  "no flame",\n', '  "air"\n'],
        ),
        (("own_steps", "wax", "tool"), "cloth", [], ['tool = "cloth"\n']),
        (("own_steps", "wax", "minutes"), None, ["  minutes = 5\n"], []),
        (
            ("options", "dyed", "choices", "dip", "times", "cut"),
            1.5,
            None,
            ['dip = { name = "dipped", times = { dye = 0.5, cut = 1.5 } }\n'],
        ),
        (
            ("options", "dyed", "choices", "dip", "times", "dye"),
            None,
            None,
            ['dip = { name = "dipped", times = {  } }\n'],
        ),
        (
            ("options", "dyed", "choices", "wipe", "by_machine"),
            True,
            [],
            ["wipe.by_machine = true\n"],
        ),
        (("options", "dyed", "name"), "colour", [], ['name = "colour"\n']),
    ],
)
@pytest.mark.parametrize("eol", ["\n", "\r\n"])
def test_an_edit_touches_the_lines_of_its_key_only(path, value, went, came, eol):
    before = KEPT.replace("\n", eol)
    after = patched(before, path, value)
    gone, new = changed_lines(before, after)
    if went is not None:
        assert gone == [line.replace("\n", eol) for line in went]
    assert new == [line.replace("\n", eol) for line in came]
    assert after.count("\n") - after.count("\r\n") == (after.count("\n") if eol == "\n" else 0)


def test_a_removed_table_takes_the_comment_above_it_and_no_other():
    after = removed(KEPT, ("own_steps", "wax"))
    gone, new = changed_lines(KEPT, after)
    assert new == []
    assert gone[0] == "# Waxed by the apprentice.\n"
    assert "# -- work of our own --\n" in after
    assert "# end of the wax\n" in after
    assert "own_steps" not in tomllib.loads(after)


def test_a_table_out_of_order_goes_whole():
    text = "[a.x]\nk = 1\n\n[b]\nk = 2\n\n[a.x.y]\nk = 3\n[c]\n"
    assert removed(text, ("a", "x")) == "[b]\nk = 2\n\n[c]\n"


def test_a_new_table_stands_at_the_end_of_its_group_set_apart_as_the_others_are():
    sample = SAMPLES[1]
    after = with_table(sample, ("joints", "extra"), {"kind": "rivet", "stack": ["a", "b"]})
    gone, new = changed_lines(sample, after)
    assert gone == []
    assert "".join(new).strip() == '[joints.extra]\nkind = "rivet"\nstack = ["a", "b"]'
    assert after.index("[joints.extra]") < after.index("# -- rows worked as one")
    assert "\n\n\n" not in after
    close = with_table("[a.x]\nk = 1\n[a.y]\nk = 2\n[b]\n", ("a", "z"), {"k": 3})
    assert close == "[a.x]\nk = 1\n[a.y]\nk = 2\n[a.z]\nk = 3\n[b]\n"


def test_a_group_written_in_lines_gets_another_line():
    text = "a = { x = { k = 1 } }\nb.x.k = 1\n"
    assert with_table(text, ("a", "y"), {"k": 2}) == (
        "a = { x = { k = 1 }, y = { k = 2 } }\nb.x.k = 1\n"
    )
    assert with_table(text, ("b", "y"), {"k": 2}) == text + "b.y = { k = 2 }\n"


def test_a_file_without_a_last_line_end_gets_one_before_what_is_new():
    assert patched("[a]\nk = 1", ("a", "n"), 2) == "[a]\nk = 1\nn = 2\n"
    assert patched("[a]\r\nk = 1", ("a", "n"), 2) == "[a]\r\nk = 1\r\nn = 2\r\n"


def test_what_cannot_be_written_is_told():
    with pytest.raises(UnpatchableError, match=r"format\.deep"):
        patched(KEPT, ("format", "deep", "key"), 1)
    with pytest.raises(UnpatchableError, match="already"):
        with_table(KEPT, ("own_steps", "wax"), {})
    with pytest.raises(UnpatchableError):
        patched("a = [", ("b",), 1)


def test_every_character_that_a_text_can_hold_comes_back():
    every = "".join(chr(c) for c in range(0x250) if c != 0xD) + "\u2028\ufeff\U0001f3ee"
    for value in (every, every.replace("\n", ""), '"""', "'''", "\\", "a\r\nb", "\n", " \n "):
        for text in MANY_HANDS:
            path = ("pattern", "notes")
            body = patched(text, path, value).removeprefix("\ufeff")
            assert tomllib.loads(body)["pattern"]["notes"] == value


# --- any edit of any file ---------------------------------------------------------------------

TEXTS = st.text(st.characters(exclude_categories=("Cs",)), max_size=12)
VALUES = st.one_of(
    TEXTS,
    st.integers(-(2**31), 2**31),
    st.floats(allow_nan=False, allow_infinity=False),
    st.booleans(),
    st.lists(TEXTS, max_size=4),
    st.lists(st.integers(0, 9), max_size=4),
)


def leaves_of(data, path=()):
    for key, value in data.items():
        if isinstance(value, dict):
            yield from leaves_of(value, (*path, key))
        else:
            yield (*path, key)


def tables_of(data, path=()):
    for key, value in data.items():
        if isinstance(value, dict):
            yield (*path, key)
            yield from tables_of(value, (*path, key))


def put(data, path, value):
    inner = data
    for key in path[:-1]:
        inner = inner.setdefault(key, {})
    inner[path[-1]] = value


def parsed(text):
    return tomllib.loads(text.removeprefix("\ufeff"))


def alike(one, other):
    """Return how many characters the texts have in common at their start."""
    pairs = enumerate(zip(one, other, strict=False))
    return next((at for at, (a, b) in pairs if a != b), min(len(one), len(other)))


@settings(max_examples=24, deadline=None)
@given(st.data())
def test_any_edit_changes_the_data_at_its_path_and_the_text_at_its_key(data):
    text = data.draw(st.sampled_from(MANY_HANDS))
    before = parsed(text)
    paths = [*leaves_of(before), *((*table, "new key") for table in tables_of(before))]
    path, value = data.draw(st.sampled_from(paths)), data.draw(VALUES)
    after = patched(text, path, value)
    expected = deepcopy(before)
    put(expected, path, value)
    assert parsed(after) == expected
    start = alike(text, after)
    end = alike(text[start:][::-1], after[start:][::-1])
    went, came = text[start : len(text) - end], after[start : len(after) - end]
    # What went held one value and nothing of its neighbours: no comment, no other key.
    old = before
    for key in path:
        old = old.get(key, "") if isinstance(old, dict) else ""
    if not isinstance(old, list):
        assert "#" not in went
        assert went.count("\n") <= str(old).count("\n") + 1
    if path[-1] == "new key":
        assert went == ""
        assert came.count("new key") == 1


@pytest.mark.long
@settings(max_examples=400, deadline=None)
@given(st.data())
def test_any_edit_changes_the_data_at_its_path_and_the_text_at_its_key_in_many_drawings(data):
    test_any_edit_changes_the_data_at_its_path_and_the_text_at_its_key.hypothesis.inner_test(data)


@settings(max_examples=24, deadline=None)
@given(st.data())
def test_what_is_added_and_taken_out_again_leaves_the_text_as_it_was(data):
    text = data.draw(st.sampled_from(MANY_HANDS))
    group = data.draw(st.sampled_from(["own_steps", "options", "joints", "new group", "parts"]))
    values = data.draw(st.dictionaries(st.text("abc", min_size=1), VALUES, max_size=3))
    added = with_table(text, (group, "entry"), values)
    assert changed_lines(text, added)[0] == []
    assert parsed(added)[group]["entry"] == values
    assert removed(added, (group, "entry")) == text


@pytest.mark.long
@settings(max_examples=400, deadline=None)
@given(st.data())
def test_what_is_added_and_taken_out_again_leaves_the_text_as_it_was_in_many_drawings(data):
    test_what_is_added_and_taken_out_again_leaves_the_text_as_it_was.hypothesis.inner_test(data)


@settings(max_examples=24, deadline=None)
@given(st.data())
def test_a_run_of_edits_keeps_every_comment(data):
    text = data.draw(st.sampled_from(MANY_HANDS))
    comments = [part for part in text.splitlines() if part.strip().startswith("# ")]
    expected = parsed(text)
    for _ in range(data.draw(st.integers(1, 5))):
        path = data.draw(st.sampled_from(sorted(leaves_of(expected))))
        if path[-1] == "cautions":
            continue
        value = data.draw(VALUES)
        text = patched(text, path, value)
        put(expected, path, value)
    assert parsed(text) == expected
    assert [c for c in comments if c not in text.splitlines()] == []


@pytest.mark.long
@settings(max_examples=400, deadline=None)
@given(st.data())
def test_a_run_of_edits_keeps_every_comment_in_many_drawings(data):
    test_a_run_of_edits_keeps_every_comment.hypothesis.inner_test(data)


def test_many_changes_at_once_are_those_made_one_after_the_other():
    text = min(SAMPLES, key=len)
    changes = [
        change
        for n, part in enumerate(list(tomllib.loads(text)["parts"])[:3])
        for change in _changes(n, part)
    ]
    assert tomllib.loads(all_patched(text, changes)) == tomllib.loads(_one_by_one(text, changes))
    plain = [change for change in changes if change.value is not None and not change.is_name]
    assert all_patched(text, plain) == _one_by_one(text, plain)


def _changes(number: int, part: str) -> list[Change]:
    last = (
        Change(path=("parts", part), value=None),
        Change(path=("parts", part), value=f"x{number}", is_name=True),
        Change(path=("parts", part, "notes"), value="drawn anew"),
    )[number]
    return [
        Change(path=("parts", part, "name"), value=f"part {number}"),
        Change(path=("parts", part, "notes"), value="as it is drawn"),
        Change(path=("parts", f"{part}_2"), value={"name": "another"}, is_new=True),
        Change(path=("parts", f"{part}_2", "count"), value=number + 1),
        last,
    ]


def _one_by_one(text: str, changes: list[Change]) -> str:
    for change in changes:
        text = all_patched(text, [change])
    return text


def test_a_table_called_anew_stays_where_it_is_with_all_in_it():
    made = all_patched(KEPT, [Change(path=("options", "dyed"), value="colour", is_name=True)])
    assert made == KEPT.replace("options.dyed", "options.colour")
    with pytest.raises(UnpatchableError, match="cannot take its place"):
        all_patched(KEPT, [Change(path=("options", "none"), value="colour", is_name=True)])
    path = ("options", "dyed", "choices", "dip")
    with pytest.raises(UnpatchableError, match="no header of its own"):
        all_patched(KEPT, [Change(path=path, value="dye", is_name=True)])
