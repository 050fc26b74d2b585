"""Typed edits of a pattern: taken where they are sound, refused in words where they are not."""

import json
import tomllib
from pathlib import Path

import pytest
from folders_cli import copy_sample

from armorplan.app.draft import Bench, Draft, Refused, drafted
from armorplan.app.draft_keys import Kind, editable_tables
from armorplan.app.draft_rows import (
    SHAPES,
    blank_rows,
    field_rows,
    group_rows,
    typed_in,
    with_entry,
)
from armorplan.files.catalogue import read_shelf
from armorplan.files.source import read_folder
from armorplan.kernel.shipped import resources_folder, samples_folder
from armorplan.workshop.shop import one_maker

BENCH = Bench(shelf=read_shelf(), shop=one_maker("UTC"))
GOLDEN = Path(__file__).parents[1] / "golden_patterns"
FOLDERS = [
    *(path.parent for path in sorted(GOLDEN.rglob("pattern.toml"))),
    *(path.parent for path in sorted(samples_folder().rglob("pattern.toml"))),
]
OPTIONS = """
# -- decided for each build --
[options.dyed]
name = "How it is dyed"
chosen = "wipe"   # as the wardrobe does it
choices.wipe = { name = "wiped" }
choices.dip = { name = "dipped", applying = "dip", times = { dye = 0.5 } }
"""


def draft_of(folder: Path) -> Draft:
    return drafted(read_folder(folder), BENCH)


@pytest.fixture(scope="module")
def draft():
    return draft_of(samples_folder() / "elbow_cop")


@pytest.fixture
def with_options(tmp_path):
    folder = copy_sample(tmp_path)
    file = folder / "pattern.toml"
    file.write_text(file.read_text(encoding="utf-8") + OPTIONS, encoding="utf-8")
    return draft_of(folder)


def field(draft, table, entry, name, *, within=""):
    rows = field_rows(draft, table, entry)
    return next(f for f in rows if f.key.name == name and within in ".".join(f.path))


def taken(result: Draft | Refused) -> Draft:
    assert isinstance(result, Draft), result.words
    return result


def refusal(result: Draft | Refused) -> str:
    assert isinstance(result, Refused)
    return result.words


def test_every_entry_of_the_pattern_stands_in_its_group(draft):
    told = {group.table: [entry.id for entry in group.entries] for group in group_rows(draft)}
    values = tomllib.loads(draft.text)
    for table in ("pieces", "materials", "parts", "joints", "seams", "forms", "treatments"):
        assert told[table] == list(values[table])
    assert told["pattern"] == [""]
    assert [g.table for g in group_rows(draft) if g.grows and not g.entries] == [
        "movements",
        "fit_checks",
        "own_steps",
        "relations",
        "overruled",
        "corrections",
        "versions",
    ]


def test_build_options_come_first_with_their_choices(with_options):
    first = group_rows(with_options)[0]
    assert first.table == "options"
    chosen = field(with_options, "options", "dyed", "chosen")
    assert chosen.words == (("wipe", "wiped"), ("dip", "dipped"))
    dipped = taken(typed_in(with_options, chosen, "dip"))
    assert 'chosen = "dip"   # as the wardrobe does it' in dipped.text
    times = field(with_options, "options", "dyed", "times", within="dip")
    assert times.typed == "dye = 0.5"
    assert times.section == "Choice: dipped"
    faster = taken(typed_in(with_options, times, "dye = 0.25\ncut = 2"))
    assert faster.entry("options", "dyed")["choices"]["dip"]["times"] == {"dye": 0.25, "cut": 2}
    assert "no kind of step" in refusal(typed_in(with_options, times, "sing = 2"))
    assert 'chosen = "wet"' not in with_options.text


@pytest.mark.parametrize(
    ("path", "typed", "held"),
    [
        (("parts", "boss", "name"), "brass boss", "brass boss"),
        (("parts", "boss", "notes"), "first line\nsecond line", "first line\nsecond line"),
        (("parts", "boss", "up_deg"), "45,5", 45.5),
        (("parts", "boss", "bevelled"), "false", False),
        (("parts", "boss", "kind"), "plate", "plate"),
        (("parts", "petal_middle", "tooling"), "", None),
        (("treatments", "colour", "coats"), "4", 4),
        (("treatments", "colour", "applying"), "dip", "dip"),
        (("joints", "tab_top", "washer_mm"), "0.8", 0.8),
        (("joints", "tab_top", "placed_on_wearer"), "true", True),
        (("forms", "petal_dish", "radius_mm"), "81", 81.0),
        (("pieces", "elbow_cop", "notes"), "for the left arm", "for the left arm"),
    ],
)
def test_what_is_typed_is_written_as_a_value(draft, path, typed, held):
    table, entry, name = path
    edited = taken(typed_in(draft, field(draft, table, entry, name), typed))
    assert edited.entry(table, entry).get(name) == held
    again = field(edited, table, entry, name)
    shown = typed.replace(",", ".") if again.key.kind is Kind.NUMBER else typed
    assert again.typed == shown
    changed = [
        line
        for line in edited.text.splitlines()
        if line not in draft.text.splitlines() and line.strip()
    ]
    assert len(changed) <= 3


def test_typing_what_is_there_changes_nothing(draft):
    for group in group_rows(draft):
        for entry in group.entries[:3]:
            for row in field_rows(draft, group.table, entry.id):
                assert typed_in(draft, row, row.typed) is draft
                if not row.typed and row.key.usual:
                    assert typed_in(draft, row, row.key.usual) is draft


def test_a_thickness_is_typed_in_either_unit_and_shown_in_both(draft):
    thick = field(draft, "materials", "cop_leather", "thickness")
    assert (thick.typed, thick.also) == ("9 oz", "= 3.57 mm")
    in_mm = taken(typed_in(draft, thick, "3.2 mm"))
    held = in_mm.entry("materials", "cop_leather")
    assert held["thickness_mm"] == 3.2
    assert "weight_oz" not in held
    assert field(in_mm, "materials", "cop_leather", "thickness").also == "= 8.1 oz"
    ranged = taken(typed_in(draft, thick, "8 - 9 oz"))
    assert ranged.entry("materials", "cop_leather")["weight_oz"] == [8, 9]
    assert field(ranged, "materials", "cop_leather", "thickness").also == "= 3.18–3.57 mm"
    assert "8–9 oz" in refusal(typed_in(draft, thick, "thick"))


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_every_field_of_every_pattern_shows_what_it_holds(folder):
    draft = draft_of(folder)
    for group in group_rows(draft):
        for entry in group.entries:
            for row in field_rows(draft, group.table, entry.id):
                assert typed_in(draft, row, row.typed) is draft
                if row.key.kind is Kind.CHOICE and row.typed:
                    assert row.typed in {word for word, _ in row.words}
                assert row.typed or not row.key.needed, row.path


def test_what_is_sold_in_words_stays_in_words(draft):
    path = ("materials", "cop_leather")
    sold = taken(draft.put(((*path, "weight_oz"), None), ((*path, "sold"), "8-9 oz")))
    thick = field(sold, *path, "thickness")
    assert (thick.typed, thick.also) == ("8-9 oz", "= 3.18–3.57 mm")
    assert taken(typed_in(sold, thick, "3.2 mm")).entry(*path)["sold"] == "3.2 mm"


@pytest.mark.parametrize(
    ("path", "typed", "words"),
    [
        (("treatments", "colour", "coats"), "two", "not a number"),
        (("treatments", "colour", "coats"), "1.5", "not a whole number"),
        (("treatments", "colour", "coats"), "0", "coats"),
        (("parts", "boss", "name"), "", "name"),
        (("parts", "boss", "hides"), "no_such_joint", "no_such_joint"),
        (("parts", "boss", "made_on"), "top", "made_on"),
        (("forms", "petal_dish", "radius_mm"), "-3", "radius_mm"),
        (("forms", "petal_dish", "radius_mm"), "nan", "not a number"),
    ],
)
def test_what_makes_an_error_is_refused_with_its_words(draft, path, typed, words):
    table, entry, name = path
    assert words in refusal(typed_in(draft, field(draft, table, entry, name), typed))


def test_own_steps_and_reasons_are_added_changed_and_taken_out(draft):
    told = {"name": "Wax the edge!", "piece": "elbow_cop", "minutes": "4", "cautions": "hot\nwet"}
    result, step = with_entry(draft, "own_steps", told)
    stepped = taken(result)
    assert step == "wax_the_edge"
    assert stepped.entry("own_steps", step)["cautions"] == ["hot", "wet"]
    assert stepped.derived is not None
    assert any(s.id.endswith(f"own/{step}") for s in stepped.derived.work.steps)
    told = {"first": f"own/{step}", "then": "dry-fit/elbow_cop", "why": "Wax rubs off."}
    result, reason = with_entry(stepped, "relations", told)
    reasoned = taken(result)
    assert any(r.reason.rule == f"own:{reason}" for r in reasoned.derived.relations), (
        reasoned.findings
    )
    row = field(reasoned, "relations", reason, "force")
    firm = taken(typed_in(reasoned, row, "would spoil"))
    assert firm.entry("relations", reason)["force"] == "would spoil"
    bare = taken(taken(firm.drop_entry("relations", reason)).drop_entry("own_steps", step))
    assert bare.text == draft.text


def test_reasons_that_contradict_are_refused(draft):
    told = {"first": "rivet/*", "then": "cut/*", "force": "cannot"}
    result, _ = with_entry(draft, "relations", told)
    assert "No order keeps all relations" in refusal(result)


def test_a_binding_reason_is_set_aside_with_a_note_only(draft):
    told = {"rule": "dry-before-handling"}
    result, _ = with_entry(draft, "overruled", told)
    assert "Write why as its note" in refusal(result)
    result, entry = with_entry(draft, "overruled", told | {"note": "A fan stands by."})
    over = taken(result)
    assert entry == "dry-before-handling"
    assert any(r.reason.overruled for r in over.derived.relations)
    again, second = with_entry(over, "overruled", told | {"note": "Another.", "step": "dye/*"})
    assert second == "dry-before-handling_2"
    taken(again)


@pytest.mark.parametrize("build", [1, 2, 5])
def test_a_next_version_is_above_the_build_s_by_whatever_it_is_raised(draft, build):
    """A folder may have been set back by hand, or gone on since the build was begun."""
    at_two = taken(draft.put((("pattern", "version"), 2)))
    raised = taken(at_two.raised_above(build))
    assert raised.entry("pattern", "")["version"] == max(2, build + 1)
    assert (raised is at_two) == (build == 1)


def test_what_was_wrong_before_does_not_refuse_another_edit(tmp_path):
    folder = copy_sample(tmp_path)
    file = folder / "pattern.toml"
    text = file.read_text(encoding="utf-8").replace("coats = 2", 'coats = "many"', 1)
    file.write_text(text, encoding="utf-8")
    faulty = draft_of(folder)
    assert faulty.derived is None
    named = taken(typed_in(faulty, field(faulty, "parts", "boss", "name"), "brass boss"))
    treatment = next(
        e
        for e in named.entry("treatments", "")
        if named.entry("treatments", e).get("coats") == "many"
    )
    mended = taken(typed_in(named, field(named, "treatments", treatment, "coats"), "2"))
    assert mended.derived is not None
    assert faulty.findings[0].place.key.startswith(f"treatments.{treatment}")


@pytest.mark.parametrize(
    "written",
    ["[options.dyed.choices.dip.times]\ndye = 0.5", "times.dye = 0.5", "times = { dye = 0.5 }"],
)
def test_factors_on_minutes_are_changed_however_they_are_written(tmp_path, written):
    folder = copy_sample(tmp_path)
    file = folder / "pattern.toml"
    option = f"""
[options.dyed]
name = "How it is dyed"
chosen = "dip"

[options.dyed.choices.dip]
name = "dipped"
{written}  # half
"""
    file.write_text(file.read_text(encoding="utf-8") + option, encoding="utf-8")
    draft = draft_of(folder)
    times = field(draft, "options", "dyed", "times", within="dip")
    assert times.typed == "dye = 0.5"
    more = taken(typed_in(draft, times, "dye = 0.4\ncut = 2"))
    times = field(more, "options", "dyed", "times", within="dip")
    assert times.typed == "dye = 0.4\ncut = 2"
    assert "# half" in more.text
    less = taken(typed_in(more, times, "cut = 2"))
    assert field(less, "options", "dyed", "times", within="dip").typed == "cut = 2"
    none = taken(typed_in(more, times, ""))
    assert field(none, "options", "dyed", "times", within="dip").typed == ""


def test_every_shape_of_reason_has_its_fields(draft):
    for _, keys in SHAPES:
        names = [row.key.name for row in blank_rows(draft, "relations", shape=keys)]
        shape_keys = {key for _, shape in SHAPES for key in shape}
        assert [name for name in names if name in shape_keys] == sorted(keys, key=names.index)
    steps = blank_rows(draft, "relations", shape=SHAPES[0][1])[0].words
    assert ("rivet/*", "all: rivet") in steps
    assert any(word == "seam/left_row" for word, _ in steps)


def entry_schema(schema, table):
    """Return what the format's schema says of one entry of a table."""

    def resolved(told):
        while "$ref" in told:
            found = schema
            for name in told["$ref"].split("/")[1:]:
                found = found[name]
            told = found
        return told

    told = resolved(schema["properties"][table])
    if table == "pattern":
        return told
    inner = told.get("additionalProperties") or next(iter(told["patternProperties"].values()))
    return resolved(inner)


def test_every_editable_key_is_one_of_the_format_and_none_is_forgotten():
    schema = json.loads(
        (resources_folder() / "schemas" / "pattern.schema.json").read_text(encoding="utf-8")
    )
    left = {}
    for table, keys in editable_tables().items():
        if keys.within:
            continue
        names = {key.name for key in keys.keys if not key.names_it}
        if "thickness" in names:
            names = names - {"thickness"} | {"thickness_mm", "weight_oz", "sold"}
        written = set(entry_schema(schema, table)["properties"])
        assert names <= written, table
        if written - names:
            left[table] = written - names
    # Outlines and axes are drawn, not typed; choices stand with their option.
    assert left == {
        "options": {"choices"},
        "pattern": {"uuid", "drawings"},
        "parts": {"outline"},
        "forms": {"axis"},
    }


def test_a_measure_it_was_drawn_for_is_chosen_from_the_catalogue():
    draft = drafted(read_folder(samples_folder() / "elbow_cop"), BENCH, is_hasty=True)
    rows = {row.key.name: row for row in blank_rows(draft, "drawn_for")}
    words = dict(rows["measure"].words)
    assert words["shin_length"] == "Shin length, knee to ankle"
    assert "elbow_girth" not in words
    made, entry = with_entry(draft, "drawn_for", {"measure": "shin_length", "mm": "380"})
    assert entry == "shin_length"
    assert "[drawn_for.shin_length]\nmm = 380" in taken(made).text
    assert [row.key.name for row in field_rows(made, "drawn_for", entry)] == ["mm", "notes"]
    assert refusal(with_entry(draft, "drawn_for", {"mm": "380"})[0]) == "Measure: choose one."


def test_how_the_limb_bends_is_typed_with_the_share_of_each_pair():
    folder = samples_folder() / "three_lames"
    bending = taken(drafted(read_folder(folder), BENCH))
    shares = field(bending, "movements", "elbow_bends", "shares_deg")
    shared = taken(typed_in(bending, shares, "30; 50; 60"))
    assert "shares_deg = [30, 50, 60]" in shared.text
    again = field(shared, "movements", "elbow_bends", "shares_deg")
    assert "140" in refusal(typed_in(shared, again, "30; 50; 50"))
