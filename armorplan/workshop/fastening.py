"""Which post length on sale holds a stack."""

from armorplan.workshop.shelf import Fastener

PINCH_PCT = 7.5
"""Leather gives 5–10 % under a rivet (common practice, no source; from memory): the middle."""
_SLACK_MM = 1e-9


def pinched_mm(stack_mm: float, *, pinch_pct: float = PINCH_PCT) -> float:
    """Return the thickness in mm of a stack once the fastener has drawn it together."""
    return stack_mm * (1 - pinch_pct / 100)


def choose_length(
    stack_mm: float, fastener: Fastener, *, pinch_pct: float = PINCH_PCT
) -> float | None:
    """Return the shortest post on sale in mm that holds a stack, or ``None`` where none does.

    A post fits from the pinched stack plus the fastener's least allowance up to the pinched stack
    plus its largest. The allowances carry their sources in the catalogue.
    """
    grip_mm = pinched_mm(stack_mm, pinch_pct=pinch_pct)
    least_mm, most_mm = (grip_mm + over for over in fastener.over_stack_mm)
    for length_mm in sorted(fastener.lengths_mm):
        if least_mm - _SLACK_MM <= length_mm <= most_mm + _SLACK_MM:
            return length_mm
    return None
