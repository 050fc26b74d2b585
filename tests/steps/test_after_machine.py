"""What a machine leaves to do by hand: only where it cuts, once a piece and side, in its place."""

from dataclasses import replace

from steps.made_steps import full_shelf, only, square, work_of

from armorplan.app.derived import derive_build
from armorplan.files.catalogue import read_shelf
from armorplan.pattern.options import Choice, Option
from armorplan.rules.sketches import by_machine, sketch, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

CUTTING = Option(
    id="cutting",
    name="Cutting",
    choices=(
        Choice(id="by_hand", name="By hand"),
        Choice(id="machine", name="By machine", by_machine=True),
    ),
    chosen="by_hand",
)
MACHINE = {"cutting": "machine"}


def derived(pattern):
    return derive_build(pattern, read_shelf(), one_maker("UTC"), build="b")


def test_a_knife_leaves_nothing_of_it():
    work = work_of(square("plate"), options=(CUTTING,))
    assert not work.of_kind(StepKind.FREE, StepKind.CHAR)


def test_a_shelf_that_does_not_know_the_work_goes_on_without():
    # A build keeps the catalogues it was begun with.
    shelf = full_shelf()
    former = tuple(d for d in shelf.durations if d.kind not in ("cut free", "take off char"))
    kept = replace(shelf, durations=former)
    work = work_of(square("plate"), options=(CUTTING,), chosen=MACHINE, shelf=kept)
    assert not work.of_kind(StepKind.FREE, StepKind.CHAR)


def test_each_piece_is_freed_and_cleaned_once():
    work = derived(by_machine(sketch(sketch_part("plate"), sketch_part("lame")))).work
    for kind in (StepKind.FREE, StepKind.CHAR):
        assert only(work, kind).parts == ("plate", "lame")
    # 3 to begin, 1 for each of two parts, 0.02 for each of 48 cm of edge, rounded up.
    assert only(work, StepKind.CHAR).minutes == 6


def test_the_order_frees_cleans_and_only_then_wets():
    plate = sketch_part("plate", bevelled=True, holes={"h": (10.0, 10.0)})
    found = derived(
        by_machine(sketch(plate, treatments=(sketch_treatment("alcohol_dye", "plate"),)))
    )
    kinds = [found.work.step(step).kind for step in found.order]
    after_cut = kinds[kinds.index(StepKind.CUT) :]
    assert after_cut[:3] == [StepKind.CUT, StepKind.FREE, StepKind.CHAR]
    assert after_cut.index(StepKind.CHAR) < after_cut.index(StepKind.DYE)
