"""The arm harness of the lantern watch: upper arm, elbow and lower arm, laid out on one sheet."""

from __future__ import annotations

from samples import arm_harness_elbow as elbow
from samples import arm_harness_forearm as forearm
from samples import arm_harness_plates as upper
from samples import arm_harness_straps as straps
from samples.arm_harness_bands import Holes
from samples.arm_harness_measures import WATCHMAN, Arm
from samples.shapes import Path, Shape, sheet

WIDTH_MM, HEIGHT_MM = 880, 645


def _fittings(
    arm: Arm, tabs: tuple[str, ...], from_here: tuple[str, ...] = ()
) -> tuple[Holes, tuple[tuple[str, Path], ...]]:
    holes: list[tuple] = []
    slots: list[tuple[str, Path]] = []
    for name in tabs:
        more, cut = straps.tab_fittings(arm, name)
        holes += more
        slots += cut
    for name in from_here:
        holes += straps.strap_holes(arm, name)
    return tuple(holes), tuple(slots)


def upper_arm(arm: Arm) -> tuple[Shape, ...]:
    """Return the parts of the upper arm, in the left column of the sheet."""
    return (
        upper.upper_plate(arm, (125.0, 165.0), _fittings(arm, ("high", "low"), ("high", "low"))),
        upper.upper_trim(arm, (125.0, 345.0)),
        upper.upper_padding(arm, (65.0, 365.0)),
        upper.rib("upper_rib_far", upper.RIB, (135.0, 258.0)),
        upper.rib("upper_rib_near", upper.RIB, (159.0, 258.0)),
        straps.hang_tab((205.0, 252.0)),
        straps.closing_strap(arm, "high", (15.0, 385.0)),
        straps.buckle_tab(arm, "high", (15.0, 411.0)),
        straps.closing_strap(arm, "low", (15.0, 437.0)),
        straps.buckle_tab(arm, "low", (15.0, 463.0)),
        straps.keeper("high", (145.0, 411.0)),
        straps.keeper("low", (145.0, 463.0)),
    )


def elbow_parts(arm: Arm) -> tuple[Shape, ...]:
    """Return the parts of the elbow, in the middle column, from the top down as they are worn."""
    return (
        elbow.upper_lame(arm, "top_lame", (433.0, 75.0)),
        elbow.upper_lame(arm, "second_lame", (433.0, 168.0)),
        elbow.upper_lame(arm, "third_lame", (433.0, 262.0)),
        elbow.cop(arm, (433.0, 350.0)),
        elbow.lower_lame(arm, (433.0, 438.0)),
        elbow.wing_trim(arm, (446.0, 594.0)),
        elbow.boss((390.0, 596.0)),
        elbow.back_leather(arm, (290.0, 532.0)),
    )


def lower_arm(arm: Arm) -> tuple[Shape, ...]:
    """Return the parts of the lower arm, in the right column."""
    return (
        forearm.lower_plate(arm, (675.0, 222.0), _fittings(arm, ("fore", "wrist"))),
        forearm.inner_plate(arm, (637.0, 462.0), _fittings(arm, (), ("fore", "wrist"))[0]),
        forearm.wrist_trim(arm, (675.0, 262.0)),
        upper.rib("lower_rib_far", forearm.RIB, (805.0, 172.0)),
        upper.rib("lower_rib_near", forearm.RIB, (829.0, 172.0)),
        forearm.lower_padding(arm, (826.0, 180.0)),
        forearm.inner_lining(arm, (768.0, 462.0)),
        forearm.hinge("fore_hinge", (830.0, 312.0)),
        forearm.hinge("wrist_hinge", (830.0, 387.0)),
        forearm.wrist_binding(arm, (575.0, 492.0)),
        straps.closing_strap(arm, "fore", (575.0, 527.0)),
        straps.buckle_tab(arm, "fore", (742.0, 527.0)),
        straps.closing_strap(arm, "wrist", (575.0, 553.0)),
        straps.buckle_tab(arm, "wrist", (742.0, 553.0)),
        straps.keeper("fore", (680.0, 492.0)),
        straps.keeper("wrist", (782.0, 492.0)),
    )


def shapes(arm: Arm = WATCHMAN) -> tuple[Shape, ...]:
    """Return every part of the left arm where it lies on the sheet."""
    return *upper_arm(arm), *elbow_parts(arm), *lower_arm(arm)


def drawing() -> str:
    """Write the SVG of the left arm."""
    return sheet(
        shapes(),
        title="Arm harness of the lantern watch",
        width_mm=WIDTH_MM,
        height_mm=HEIGHT_MM,
    )
