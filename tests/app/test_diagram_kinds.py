"""The diagram of copies, of glue without a head, and of one-sided parts."""

from dataclasses import replace

from armorplan.app.derived import derive_build
from armorplan.app.diagram_rows import DiagramRows
from armorplan.app.rows import BenchState
from armorplan.pattern.joining import Joint, JointKind
from armorplan.pattern.parts import MadeOn
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.workshop.shop import one_maker

SLANTED = ((0.0, 0.0), (80.0, 0.0), (60.0, 40.0), (0.0, 40.0))


def diagram(*parts, **tables):
    derived = derive_build(
        sketch(*parts, mirrored=True, **tables), sketch_shelf(), one_maker(), build="s-1"
    )
    return DiagramRows(derived).at(lambda _: BenchState.WAITING)


def test_a_copied_part_lies_where_its_mirror_image_would_the_same_way_up():
    badge = replace(sketch_part("badge"), outline=SLANTED)
    mirrored = {p.id: p.outline for p in diagram(badge).parts}
    copied = {p.id: p.outline for p in diagram(replace(badge, copied=True)).parts}
    assert copied["badge.left"] == mirrored["badge.left"] == SLANTED
    shifts = {round(b[0] - a[0], 6) for a, b in zip(SLANTED, copied["badge.right"], strict=True)}
    assert len(shifts) == 1
    assert {x for x, _ in copied["badge.right"]} >= {min(x for x, _ in mirrored["badge.right"])}


def test_what_is_glued_over_its_surface_has_no_head():
    glue = Joint(id="g", kind=JointKind.GLUE, layers=("plate", "lining"), fastener="cement")
    joints = diagram(sketch_part("plate"), sketch_part("lining"), joints=(glue,)).joints
    assert [(j.id, j.head_mm, j.fastener) for j in joints] == [
        ("g.left", 0.0, "Cement"),
        ("g.right", 0.0, "Cement"),
    ]
    assert joints[0].step is not None


def test_a_part_of_one_side_is_shown_there_alone():
    loop = replace(sketch_part("loop"), made_on=MadeOn.RIGHT)
    assert [p.id for p in diagram(loop).parts] == ["loop.right"]
