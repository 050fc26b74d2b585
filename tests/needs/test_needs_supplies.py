"""Thread by its rows, glue by its area."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern
from needs.needs_sketches import built, plate, shelf

from armorplan.needs.supplies import GLUE_ML_PER_DM2, glue_needs, run_needs
from armorplan.pattern.joining import Joint, JointKind

LAYERS = ("one", "two")
SMALL = plate("two", 100.0, 50.0)
STITCH = Joint(id="stitch", kind=JointKind.STITCH, layers=LAYERS, fastener="thread")
GLUE = Joint(id="glue", kind=JointKind.GLUE, layers=LAYERS, fastener="cement")


def sewn(*joints):
    return built(pattern(plate("one"), SMALL, joints=joints))


def test_a_row_takes_four_times_its_length_and_thirty_centimetres():
    # Saddle stitch: thread about 4 × seam plus 0.3 m (common practice, no source).
    (need,) = run_needs(sewn(replace(STITCH, length_mm=500.0)), shelf())
    assert (need.row_m, need.metres) == (pytest.approx(0.5), pytest.approx(2.3))
    assert need.cost == pytest.approx(1.15)


def test_without_a_length_it_is_the_edge_of_the_smaller_layer():
    (need,) = run_needs(sewn(STITCH), shelf())
    assert need.row_m == pytest.approx(0.3)


def test_a_lace_runs_from_hole_to_hole():
    holes = {f"lace_{at}": (10.0 + 40.0 * at, 10.0) for at in range(4)}
    laced = part("laced", box(200.0, 100.0), holes)
    lace = Joint(id="lace", kind=JointKind.LACE, stack=tuple(holes), fastener="thread")
    (need,) = run_needs(built(pattern(laced, joints=(lace,))), shelf())
    assert (need.row_m, need.metres) == (pytest.approx(0.12), pytest.approx(0.12 * 4 + 0.3))


def test_two_rows_have_two_ends():
    rows = (replace(STITCH, length_mm=500.0), replace(STITCH, id="again", length_mm=500.0))
    (need,) = run_needs(sewn(*rows), shelf())
    assert (need.rows, need.metres) == (2, pytest.approx(4.6))


def test_a_thread_that_nobody_named_has_a_row_and_no_amount():
    (need,) = run_needs(sewn(replace(STITCH, fastener="")), shelf())
    assert (need.kind, need.rows, need.metres, need.cost) == ("stitch", 1, None, None)


def test_glue_goes_on_both_faces_of_the_smaller_layer():
    (need,) = glue_needs(sewn(GLUE), shelf())
    assert (need.area_dm2, need.ml) == (pytest.approx(0.5), pytest.approx(0.5 * 2 * 2.0))


def test_a_written_area_holds_and_the_usual_coverage_where_the_shelf_says_none():
    (need,) = glue_needs(sewn(replace(GLUE, area_mm2=20_000.0, fastener="paste")), shelf())
    assert (need.name, need.area_dm2) == ("paste", pytest.approx(2.0))
    assert need.ml == pytest.approx(2.0 * 2 * GLUE_ML_PER_DM2)
