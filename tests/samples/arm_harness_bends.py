"""What the text of the arm harness has to say of its bends and straps, from the measures of the arm."""

from __future__ import annotations

from math import degrees, floor

from samples.arm_harness_forearm import lower_side
from samples.arm_harness_measures import LAME_MM, PLATE_MM, Arm
from samples.arm_harness_plates import upper_side
from samples.arm_harness_straps import CLOSINGS, STEP_MM


def bends(arm: Arm) -> dict[str, tuple[float, int | None]]:
    """Return the inner radius in mm and the angle in degrees of each bend of plates, lames and trims.

    Of a piece of a cone the radius is that at its middle. A dish has no angle.
    """
    upper, lower, layers = arm.upper_cone, arm.lower_cone, arm.layers_mm
    round_upper = floor(2 * degrees(upper_side(arm))) - 1
    round_lower = floor(2 * degrees(lower_side(arm))) - 1
    forearm_mm = lower.radius_mm(lower.slant_mm / 2) - PLATE_MM / 2
    return {
        "upper_round": (upper.radius_mm(upper.slant_mm / 2) - PLATE_MM / 2, round_upper),
        "upper_trim_round": (upper.radius_mm(upper.slant_mm) + PLATE_MM / 2, round_upper),
        "top_round": (layers["top_lame"] - LAME_MM / 2, 180),
        "second_round": (layers["second_lame"] - LAME_MM / 2, 180),
        "third_round": (layers["third_lame"] - LAME_MM / 2, 180),
        "lower_round": (layers["lower_lame"] - LAME_MM / 2, 180),
        "cop_cup": (layers["cop"] - LAME_MM / 2, None),
        "outer_round": (forearm_mm, round_lower),
        "inner_round": (forearm_mm, 130),
        "wrist_trim_round": (lower.radius_mm(10.0) + PLATE_MM / 2, round_lower - 4),
    }


def girths(arm: Arm) -> dict[str, tuple[float, float]]:
    """Return the least and the most girth in mm that each strap closes round, by its place."""
    return {
        f"{each.name}_place": (
            each.girth_mm(arm),
            each.girth_mm(arm) + STEP_MM * (each.sets - 1),
        )
        for each in CLOSINGS
    }
