"""Numbers at the steps that can hurt someone, each with its source, in kept builds too."""

from dataclasses import replace

import pytest
from steps.made_steps import only, square, work_of

from armorplan.files.catalogue import read_shelf
from armorplan.pattern.joining import Applying
from armorplan.rules.sketches import sketch_form, sketch_treatment
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Room

SHELF = read_shelf()
SHAPED = {StepKind.CASE, StepKind.FORM, StepKind.DRY}


def dyed(*, room=None, applying=Applying.WIPE, count=1):
    coat = replace(sketch_treatment("alcohol_dye", "plate"), applying=applying)
    plate = square("plate", count=count)
    return only(work_of(plate, shelf=SHELF, climate=room, treatments=(coat,)), StepKind.DYE)


def vapour(step):
    (told,) = [caution for caution in step.cautions if "evaporate" in caution]
    return told


def grams(step):
    return float(vapour(step).partition(" g of ")[0])


def test_a_wiped_dye_says_how_much_evaporates_and_how_much_air_that_takes():
    told = vapour(dyed())
    # 80 × 40 mm are 0.32 dm²; both faces, 1.5 ml/dm², 0.75 g of ethanol in a ml: 0.72 g.
    assert told.startswith("0.72 g of ethanol evaporate: it takes at least 0.12 m³ of air")
    assert "NIOSH Pocket Guide" in told
    assert "licensed practice rule" in told


def test_in_a_room_of_known_size_its_share_of_the_explosive_limit_is_told():
    assert "in 30 m³ of still air" in vapour(dyed(room=Room(volume_m3=30.0)))
    assert "too much" not in vapour(dyed(room=Room(volume_m3=30.0)))
    assert "too much" in vapour(dyed(room=Room(volume_m3=0.1)))


def test_a_bath_and_more_parts_give_off_more():
    # 6 ml/dm² of leather dipped against 2 × 1.5 ml wiped: twice as much.
    assert grams(dyed(applying=Applying.DIP)) == pytest.approx(2 * grams(dyed()), rel=0.05)
    assert "open tray" in vapour(dyed(applying=Applying.DIP))
    assert grams(dyed(count=5)) == pytest.approx(5 * grams(dyed()), rel=0.05)


def test_a_deglazer_counts_one_face_and_water_none():
    coats = (sketch_treatment("alcohol_dye", "plate"), sketch_treatment("acrylic_finish", "plate"))
    work = work_of(square("plate"), shelf=SHELF, treatments=coats)
    # 0.32 dm² of one face, 1 ml/dm², 0.75 g/ml.
    assert grams(only(work, StepKind.CLEAN)) == pytest.approx(0.24, rel=0.05)
    assert not any("evaporate" in c for c in only(work, StepKind.FINISH).cautions)


def test_wet_leather_carries_its_limits_of_heat_with_their_source():
    work = work_of(square("plate"), shelf=SHELF, forms=(sketch_form("bow", "plate"),))
    for kind in SHAPED:
        heat = [c for c in only(work, kind).cautions if "64 °C" in c]
        assert heat, kind
        assert all("Heritage Science 2019" in caution for caution in heat)


def test_where_leather_is_sanded_the_dust_is_told_with_its_source():
    kinds = ("bevel", "skive", "roughen", "burnish", "glue")
    for entry in (e for e in SHELF.durations if e.kind in kinds):
        assert any("IARC Monograph 100C, 2012, Group 1" in c for c in entry.cautions), entry.kind


def test_what_is_tried_on_and_packed_says_that_it_is_costume():
    for entry in (e for e in SHELF.durations if e.kind in ("mock-up", "fit", "pack")):
        assert any("costume, not protective" in c or "Costume, not" in c for c in entry.cautions)
