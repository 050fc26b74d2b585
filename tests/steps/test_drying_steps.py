"""What time alone does after wet work, and the watch over a dipped coat."""

from dataclasses import replace

import pytest
from steps.made_steps import only, square, work_of

from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.pattern.joining import Applying
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch_bath, sketch_form, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Climate, Room

SHELF = sketch_shelf()
FORMED = {"forms": (sketch_form("bow", "plate"),)}


def shelf_with(treatment, **fields):
    changed = (replace(e, **fields) if e.id == treatment else e for e in SHELF.treatments)
    return replace(SHELF, treatments=tuple(changed))


def test_what_was_dipped_drips_is_watched_dries_and_cures_from_the_end_of_its_coat():
    work = work_of(
        sketch_part("plate"), shelf=SHELF, treatments=(sketch_bath("lacquer", "plate", coats=2),)
    )
    first, last = work.of_kind(StepKind.FINISH)
    kinds = [step.kind for step in work.following(first.id)]
    assert kinds == [StepKind.DRIP, StepKind.DRY]
    assert [s.kind for s in work.following(last.id)] == [*kinds, StepKind.CURE]
    assert work.drying_of(last.id).kind is StepKind.DRY
    watch = work.of_kind(StepKind.WATCH)[0]
    assert (watch.after, watch.minutes, watch.every_min) == (first.id, 20, 5)
    assert watch.attended
    assert not any(step.attended for step in work.following(last.id))
    assert work.following(last.id)[0].minutes == 5


def test_what_is_wiped_on_neither_drips_nor_is_watched():
    work = work_of(
        sketch_part("plate"), shelf=SHELF, treatments=(sketch_treatment("lacquer", "plate"),)
    )
    assert not work.of_kind(StepKind.DRIP, StepKind.WATCH)


def dipped_pair(**fields):
    shelf = shelf_with("lacquer", **fields)
    baths = (sketch_bath("lacquer", "cuff"),)
    return work_of(sketch_part("cuff"), shelf=shelf, mirrored=True, treatments=baths)


def test_one_watch_is_over_left_and_right_where_the_second_is_dipped_in_time():
    work = dipped_pair(set_up_min=3.0)
    watch = only(work, StepKind.WATCH)
    assert [step.minutes for step in work.of_kind(StepKind.FINISH)] == [5, 5]
    assert watch.parts == ("cuff.left", "cuff.right")
    assert work.step(watch.after).parts == ("cuff.right",)
    assert len(work.of_kind(StepKind.DRIP)) == 2


@pytest.mark.parametrize(
    "fields",
    [
        {"set_up_min": 4.0},
        {"set_up_min": 3.0, "watch_every_min": 4},
        {"set_up_min": 3.0, "touch_min": 9},
    ],
    ids=["a minute more in the bath", "turned more often", "dry to the touch before its turn"],
)
def test_left_and_right_are_watched_each_for_itself_where_the_first_would_hang_too_long(fields):
    watches = dipped_pair(**fields).of_kind(StepKind.WATCH)
    assert [watch.parts for watch in watches] == [("cuff.left",), ("cuff.right",)]
    assert all(watch.parts == (f"cuff.{watch.side}",) for watch in watches)


def test_a_watch_over_many_parts_says_whose_they_are():
    parts = [sketch_part(f"plate_{number}") for number in range(5)]
    baths = (sketch_bath("lacquer", *(part.id for part in parts)),)
    work = work_of(*parts, shelf=SHELF, mirrored=True, treatments=baths)
    titles = [watch.title for watch in work.of_kind(StepKind.WATCH)]
    assert [title.split(" every")[0] for title in titles] == [
        f"Turn and wipe 5 parts of Piece ({side})" for side in ("left", "right")
    ]


@pytest.mark.parametrize("fields", [{"cure_before": ()}, {"cure_min": 720}, {"cure_min": None}])
def test_no_cure_where_nothing_waits_for_it_or_it_is_over_by_then(fields):
    work = work_of(
        sketch_part("plate"),
        shelf=shelf_with("lacquer", **fields),
        treatments=(sketch_treatment("lacquer", "plate"),),
    )
    assert not work.of_kind(StepKind.CURE)


def test_a_drying_is_that_of_the_thickest_part():
    shelf = shelf_with("oil", reference_mm=2.0)
    thin, thick = square("thin", thickness_mm=2.0), square("thick", thickness_mm=4.0)
    both = (replace(sketch_treatment("oil", "thin", "thick"), id="both"),)
    dry = only(work_of(thin, thick, shelf=shelf, treatments=both), StepKind.DRY)
    alone = (sketch_treatment("oil", "thin"),)
    quick = only(work_of(thin, thick, shelf=shelf, treatments=alone), StepKind.DRY)
    assert dry.drying.body.thickness_mm == 4.0
    assert quick.minutes == 720
    assert dry.minutes == pytest.approx(720 * 2**1.5, abs=1)


def test_the_minutes_of_a_drying_are_what_the_room_says_of_it():
    room = Room(usual=Climate(temperature_c=12.0, humidity_pct=70.0))
    dipped = replace(sketch_treatment("finish", "plate", coats=2), applying=Applying.DIP)
    work = work_of(sketch_part("plate"), shelf=SHELF, climate=room, treatments=(dipped,))
    stages = []
    for dry in work.of_kind(StepKind.DRY):
        drying = dry.drying
        entry = SHELF.treatment(drying.treatment)
        assert dry.minutes == drying_room(room).usual(entry, drying.body).likely_min(drying.stage)
        assert drying.body.dipped
        stages.append(drying.stage)
    assert stages == [Stage.TOUCH, Stage.HANDLE]


def test_a_casing_says_when_it_is_ready_to_shape():
    case = only(work_of(sketch_part("plate"), shelf=SHELF, **FORMED), StepKind.CASE)
    assert (case.drying.treatment, case.drying.stage) == ("casing", Stage.OPENS)
    timeless = shelf_with("casing", window_min=None)
    assert (
        only(work_of(sketch_part("plate"), shelf=timeless, **FORMED), StepKind.CASE).drying is None
    )


def test_air_too_damp_keeps_the_catalogues_time_of_the_stage():
    room = Room(usual=Climate(temperature_c=20.0, humidity_pct=100.0))
    finish = (sketch_treatment("finish", "plate", coats=2),)
    work = work_of(sketch_part("plate"), shelf=SHELF, climate=room, treatments=finish)
    assert [dry.minutes for dry in work.of_kind(StepKind.DRY)] == [30, 720]
