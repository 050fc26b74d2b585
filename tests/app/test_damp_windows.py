"""Read as a list, the order never lets damp leather dry before it is worked."""

from dataclasses import replace

import pytest

from armorplan.app.derived import derive_build
from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.joining import Route
from armorplan.pattern.own_work import OwnKind, OwnRelation, OwnStep
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

SAMPLES = sorted(path.parent.name for path in samples_folder().glob("*/pattern.toml"))


def in_windows(derived):
    """Yield each casing with what stands between it and what it serves, and its most minutes."""
    work = derived.work
    for relation in derived.waits:
        first = work.step(relation.first)
        if first.kind is StepKind.CASE and relation.max_lag_min is not None:
            between = derived.order[derived.place[first.id] + 1 : derived.place[relation.then]]
            yield first, [work.step(step) for step in between], relation.max_lag_min


def holds(derived):
    windows = list(in_windows(derived))
    for casing, between, most in windows:
        assert all(step.attended for step in between), casing.id
        assert sum(step.minutes for step in between) <= most, casing.id
        # Only what is damped and shaped with it: its like on the other side.
        kinds = {step.kind for step in between}
        assert kinds <= {StepKind.CASE, StepKind.FORM, StepKind.TOOL}, casing.id
    return len(windows)


@pytest.mark.parametrize("name", SAMPLES)
def test_between_casing_and_shaping_nothing_dries_and_the_window_is_kept(name):
    derived = derive_folder(samples_folder() / name, read_shelf(), one_maker(), chosen={})
    assert holds(derived) > 0


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("tooled", ["", "waves"])
@pytest.mark.parametrize("route", [Route.DAMP, Route.HARDENED])
@pytest.mark.parametrize("held", [(), ("bow",), ("bow", "arch")])
def test_what_waits_for_an_own_step_is_damped_once_that_is_done(mirrored, tooled, route, held):
    parts = (sketch_part("plate", tooling=tooled or None), sketch_part("lame", bevelled=True))
    forms = (sketch_form("bow", "plate", route=route), sketch_form("arch", "lame"))
    treatments = (sketch_treatment("dye", "plate", "lame", coats=2),)
    drawn = sketch(*parts, forms=forms, treatments=treatments, mirrored=mirrored)
    stamp = OwnStep(id="stamp", name="Stamp", piece=drawn.pieces[0].id, minutes=40, wait_min=600)
    wishes = tuple(
        OwnRelation(
            id=f"flat_{form}",
            kind=OwnKind.BEFORE,
            step="own/stamp",
            others=(f"form/{form}",),
            force="would spoil",
            why="A stamp wants a flat back.",
        )
        for form in held
    )
    pattern = replace(drawn, own_steps=(stamp,), own_relations=wishes)
    derived = derive_build(pattern, sketch_shelf(), one_maker(), build="b")
    assert holds(derived) >= 2
    place = derived.place
    stamps = [s for s in derived.work.steps if s.kind is StepKind.OWN]
    for casing, _, _ in in_windows(derived):
        if casing.serves and any(f"/form/{form}" in casing.serves for form in held):
            mine = [s for s in stamps if s.side is casing.side]
            assert mine
            assert all(place[s.id] < place[casing.id] for s in mine)
