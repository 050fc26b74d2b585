"""Measures held against ANSUR II (NATICK/TR-15/007, Gordon and others 2014), the public release.

The raw values of 6,068 adults lie outside of the project; where they are not at hand, the
percentiles printed with their source in outside figures stand alone (typed in below).
"""

import csv
import os
from pathlib import Path

import numpy as np
import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.workshop.measures import Sex

SHELF = read_shelf()
COLUMNS = {
    "stature": "stature",
    "crotch_height": "crotchheight",
    "knee_height": "kneeheightmidpatella",
    "thigh_girth": "thighcircumference",
    "lower_thigh_girth": "lowerthighcircumference",
    "calf_girth": "calfcircumference",
    "ankle_girth": "anklecircumference",
    "upper_arm_length": "acromionradialelength",
    "forearm_length": "radialestylionlength",
    "biceps_girth": "bicepscircumferenceflexed",
    "forearm_girth": "forearmcircumferenceflexed",
    "wrist_girth": "wristcircumference",
    "neck_girth": "neckcircumference",
    "neck_base_girth": "neckcircumferencebase",
    "heel_girth": "heelanklecircumference",
    "shoulder_girth": "shouldercircumference",
    "thigh_plate_length": "trochanterionheight-kneeheightmidpatella",
}
PRINTED = {
    # measure: men p5, p50, p95; women p5, p50, p95 (mm), as published percentiles round them.
    "stature": (1648, 1755, 1870, 1525, 1626, 1740),
    "upper_arm_length": (307, 335, 365, 283, 311, 340),
    "forearm_length": (244, 267, 295, 218, 241, 268),
    "biceps_girth": (303, 357, 418, 259, 304, 360),
    "forearm_girth": (275, 310, 348, 235, 263, 296),
    "wrist_girth": (162, 176, 191, 142, 154, 168),
    "calf_girth": (346, 392, 443, 328, 372, 423),
    "neck_girth": (360, 395, 443, 302, 328, 363),
}


def data_file():
    given = os.environ.get("ARMORPLAN_CHECK_DATA")
    home = Path(given) if given else Path(__file__).parents[2].parent / "shared" / "data"
    return home / "ansur2_reduced.csv"


def value(row, column):
    """Return what one person measures; of two columns the difference."""
    first, *rest = (float(row[name]) for name in column.split("-"))
    return first - sum(rest)


@pytest.fixture(scope="module")
def people():
    file = data_file()
    if not file.is_file():
        pytest.skip("the raw values lie in ../shared/data or where ARMORPLAN_CHECK_DATA points")
    with file.open(encoding="utf-8", newline="") as opened:
        rows = list(csv.DictReader(opened))
    return {
        (sex, column): np.array([value(row, column) for row in rows if row["sex"] == letter])
        for sex, letter in ((Sex.MALE, "M"), (Sex.FEMALE, "F"))
        for column in COLUMNS.values()
    }


def usual(measure, sex):
    (found,) = SHELF.measure(measure).usual(sex)
    return found


@pytest.mark.parametrize("measure", PRINTED)
def test_the_printed_percentiles_are_met_within_a_millimetre(measure):
    men, women = PRINTED[measure][:3], PRINTED[measure][3:]
    for sex, printed in ((Sex.MALE, men), (Sex.FEMALE, women)):
        for percent, value in zip((5, 50, 95), printed, strict=True):
            assert usual(measure, sex).value_mm(percent) == pytest.approx(value, abs=1)


@pytest.mark.parametrize("measure", COLUMNS)
@pytest.mark.parametrize("sex", Sex)
def test_percentiles_agree_with_numpy_on_the_raw_values(people, measure, sex):
    values, figures = people[sex, COLUMNS[measure]], usual(measure, sex)
    for percent in (5, 25, 50, 75, 95):
        assert figures.value_mm(percent) == pytest.approx(np.percentile(values, percent), abs=1)
    # Between them a normal distribution is laid through: within an eighth of the deviation.
    for percent in (10, 40, 60, 90):
        found = np.percentile(values, percent)
        assert figures.value_mm(percent) == pytest.approx(found, abs=max(1, figures.sd_mm / 8))
    assert figures.mean_mm == pytest.approx(values.mean(), abs=0.01)
    assert figures.sd_mm == pytest.approx(values.std(ddof=1), abs=0.01)


@pytest.mark.parametrize("measure", COLUMNS)
def test_a_percentile_is_the_share_that_measures_less(people, measure):
    values, figures = people[Sex.MALE, COLUMNS[measure]], usual(measure, Sex.MALE)
    for value in np.percentile(values, (7, 30, 62, 93)):
        share = 100 * ((values < value).mean() + (values <= value).mean()) / 2
        assert figures.percentile(float(value)) == pytest.approx(share, abs=2)


def test_lengths_go_with_stature_and_girths_do_not(people):
    """Why a girth never follows a length here: stature tells little of the thigh (r 0.255)."""
    tall, thigh = people[Sex.MALE, "stature"], people[Sex.MALE, "thighcircumference"]
    knee = people[Sex.MALE, "kneeheightmidpatella"]
    assert np.corrcoef(tall, thigh)[0, 1] == pytest.approx(0.255, abs=0.001)
    assert np.corrcoef(tall, knee)[0, 1] == pytest.approx(0.833, abs=0.001)
    kinds = {SHELF.measure(m).kind.value for m in ("stature", "knee_height")}
    assert kinds == {"length"}
    assert SHELF.measure("thigh_girth").kind.value == "girth"
