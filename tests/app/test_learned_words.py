"""What counts for little is told with what it is far off."""

from armorplan.app.learned_rows import drying_row
from armorplan.cli.learned_table import drying_table
from armorplan.drying.learned import Look, estimate
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.workshop.air import Room

DYE = "water_dye"


def seen(*factors, dry):
    return [
        Look(
            treatment=DYE,
            run=f"dry/{at}-{factor}@2027-03-0{at + 1}T09:00:00+00:00",
            bath=f"{at}-{factor}",
            dose_min=factor * 1000,
            reference_min=1000,
            dry=dry,
        )
        for at, factor in enumerate(factors)
    ]


def row_of(looks):
    return drying_row(estimate(DYE, looks, 2.0), sketch_shelf(), Room())


def test_a_single_drying_is_far_off_the_catalogue_since_there_are_no_others():
    row = row_of(seen(6.0, dry=False))
    assert row.words.endswith(
        "Learned from 1 drying. The one begun on 1 Mar 09:00 is far off the catalogue and counts "
        "for little."
    )
    (_, _, line) = drying_table([row], "UTC")
    assert line.startswith("  far off the catalogue, counts for little: dry/0-6.0, begun 1 Mar")


def test_one_among_others_is_far_off_those():
    row = row_of([*seen(0.8, 0.85, 0.8, dry=False), *seen(9.0, dry=False)])
    assert "The one begun on 1 Mar 09:00 is far off the others and counts" in row.words


def test_pieces_of_one_bath_are_told_with_one_instant():
    looks = [
        Look(
            treatment=DYE,
            run=f"dry/{piece}@2027-03-01T09:00:00+00:00",
            bath="bath",
            dose_min=6000,
            reference_min=1000,
            dry=False,
        )
        for piece in "abc"
    ]
    assert "The ones begun on 1 Mar 09:00 are far off the catalogue" in row_of(looks).words
