"""What is drawn otherwise is told part by part, and makes a next version once."""

from app.editing.edited import sample, taken

from armorplan.app.drawn_changes import as_next_version, drawn_changes
from armorplan.app.editing.holes import add_hole, drop_holes, move_holes, set_hole
from armorplan.app.editing.parts import drop_parts, set_parts


def told(before, after):
    return drawn_changes(before.pattern, after.pattern)


def test_moved_added_and_dropped_holes_are_counted_part_by_part():
    cop = sample("elbow_cop")
    made = taken(move_holes(cop, ["left_2", "left_3"], (0.0, -1.5)))
    made = taken(set_hole(made, "left_4", diameter_mm=4.5))
    made = taken(add_hole(made, "boss", (390.0, 245.0), diameter_mm=3.0))
    made = taken(drop_holes(made, ["middle_right_4"]))
    assert set(told(cop, made)) == {
        "left petal: 2 holes moved by up to 1.5 mm, 1 hole with another diameter.",
        "middle petal: 1 hole taken out.",
        "boss: 1 hole added.",
    }
    assert told(cop, taken(drop_parts(cop, ["boss"]))) == ("boss: taken out.",)
    assert told(cop, cop) == ()


def test_a_sitting_makes_one_version_and_notes_all_it_brought():
    cop = sample("elbow_cop")
    first = taken(
        as_next_version(taken(move_holes(cop, ["left_2"], (1.0, 0.0))), saved=cop, above=1)
    )
    assert first.pattern.version == 2
    again = taken(move_holes(first, ["right_2"], (1.0, 0.0)))
    again = taken(as_next_version(again, saved=first, above=1))
    assert again.pattern.version == 2
    (note,) = (note for note in again.pattern.versions if note.version == 2)
    assert note.changed == (
        "left petal: 1 hole moved by up to 1.0 mm.",
        "right petal: 1 hole moved by up to 1.0 mm.",
    )


def test_what_is_only_said_otherwise_makes_no_version():
    cop = sample("elbow_cop")
    said = taken(set_parts(cop, ["boss"], {"notes": "A lantern."}))
    assert as_next_version(said, saved=cop, above=1) is said
