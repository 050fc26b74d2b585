"""What a bench sheet costs: the largest sample within 3 s of one core, and 300 plates at full size."""

from dataclasses import replace

import pytest
from bench.reach_patterns import many_shells
from bench.stopwatch import busy_s
from bench.test_bench_shapes import SHELF, say

from armorplan.app.derived import derive_build
from armorplan.app.opening import derive_folder
from armorplan.app.sheet_making import SheetAsked, bench_sheet
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.shipped import samples_folder
from armorplan.sheets.bench_sheet import bench_sheet_pdf
from armorplan.sheets.bench_sheet_ink import A4
from armorplan.workshop.shop import one_maker

pytestmark = pytest.mark.bench

SAMPLE_S, LARGE_S = 3.0, 8.0


def arm_harness():
    return derive_folder(samples_folder() / "arm_harness", SHELF, one_maker("UTC"))


def three_hundred():
    """Return loose plates: what holds them together takes long to derive, and is drawn above."""
    plates = replace(many_shells(300), joints=(), seams=())
    return derive_build(plates, SHELF, one_maker("UTC"), build="plates")


@pytest.mark.parametrize(
    ("make", "most_s"),
    [(arm_harness, SAMPLE_S), (three_hundred, LARGE_S)],
    ids=["arm harness", "300 plates"],
)
def test_a_sheet_is_written_in_time(make, most_s, capsys):
    derived = make()
    asked = SheetAsked(derived=derived, build=derived.assembly.build, full_size=True)
    found = []
    spent_s = busy_s(lambda: found.append(bench_sheet_pdf(bench_sheet(asked, SystemClock()), A4)))
    printed = found[0]
    say(
        capsys,
        f"{len(derived.order)} steps, {len(derived.assembly.parts)} parts on {printed.pages} pages: "
        f"{spent_s:.2f} s, {len(printed.data) / 1e6:.1f} MB",
    )
    assert spent_s <= most_s
