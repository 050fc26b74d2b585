"""Titles of a row are told as one."""

from armorplan.app.drills.series import in_series


def test_joints_of_a_row_that_are_set_are_told_as_one():
    titles = (
        "Rivet left row, 7 of 7",
        "Rivet lace tab",
        *(f"Rivet left row, {n} of 7" for n in (1, 5, 2)),
    )
    assert in_series(titles) == ("Rivet left row, 1, 2, 5 and 7 of 7", "Rivet lace tab")
    assert in_series(f"Rivet rim, {n} of 4" for n in (4, 3, 2)) == ("Rivet rim, 2 to 4 of 4",)
    assert in_series(("Screw hinge (left), 1 of 2",)) == ("Screw hinge (left), 1 of 2",)
