import tomllib

from hypothesis import given
from hypothesis import strategies as st

from armorplan.files.toml_lines import key_lines

AWKWARD = """\
# a comment with [table] and key = 1
top = "a # not a comment = [x]"
'quoted key' = 1
"esc\\u0061ped" = 2
dotted . "in.side" = { a = 1, b = { c = [1, 2] } }

[one.two]  # comment
many = [
    "]",  # ]
    '''
    multi ]]
    ''',
    [ 1,
      2 ],
]
text = \"\"\"
[not.a.table]
key = 5 \\\"\"\" still
ends in quotes\"\"\"\"\"
after = 1979-05-27T07:32:00Z

[[rows]]
id = 1
[rows.inner]
x = 1
[[rows]]
id = 2
inner.x = 2
"""


def test_awkward_files():
    lines = key_lines(AWKWARD)
    expected = {
        ("top",): 2,
        ("quoted key",): 3,
        ("escaped",): 4,
        ("dotted", "in.side", "b", "c"): 5,
        ("one", "two"): 7,
        ("one", "two", "many"): 8,
        ("one", "two", "many", "0"): 9,
        ("one", "two", "many", "1"): 10,
        ("one", "two", "many", "2", "1"): 14,
        ("one", "two", "text"): 16,
        ("one", "two", "after"): 20,
        ("rows", "0", "id"): 23,
        ("rows", "0", "inner", "x"): 25,
        ("rows", "1"): 26,
        ("rows", "1", "inner", "x"): 28,
    }
    assert {path: lines.get(path) for path in expected} == expected


def test_line_ends_of_either_kind_give_the_same_lines():
    assert key_lines(AWKWARD.replace("\n", "\r\n")) == key_lines(AWKWARD)


def _paths(value, path=()):
    entries = value.items() if isinstance(value, dict) else enumerate(value)
    for key, inner in entries:
        yield (*path, str(key))
        if isinstance(inner, dict | list):
            yield from _paths(inner, (*path, str(key)))


def test_every_key_has_a_line():
    assert set(_paths(tomllib.loads(AWKWARD))) <= set(key_lines(AWKWARD))


KEYS = st.text("abc-_1", min_size=1, max_size=3)
VALUES = st.sampled_from(
    ["1", '"a"', "'b]'", "[1, [2]]", "{ x = 1 }", '"""m\nn = 1"""', "[\n1,\n# c\n2]", "true"]
)


@given(st.dictionaries(KEYS, st.dictionaries(KEYS, VALUES, max_size=4), max_size=4))
def test_lines_are_where_the_keys_stand(tables):
    text = "".join(
        f"[{table}]\n" + "".join(f"{key} = {value}\n" for key, value in rows.items())
        for table, rows in tables.items()
    )
    assert tomllib.loads(text).keys() == tables.keys()
    lines, written = key_lines(text), text.splitlines()
    for table, rows in tables.items():
        assert written[lines[table,] - 1] == f"[{table}]"
        for key in rows:
            assert written[lines[table, key] - 1].startswith(f"{key} = ")


def test_deep_nesting_is_cheap_and_shallow():
    lines = key_lines("a" + ".a" * 50 + " = " + "[" * 200 + "]" * 200)
    assert max(map(len, lines)) <= 8
