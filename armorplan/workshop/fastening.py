"""Which post length on sale holds a stack."""

from armorplan.workshop.shelf import Fastener

_SLACK_MM = 1e-9


def pinched_mm(stack_mm: float, *, pinch_pct: float, washer_mm: float = 0.0) -> float:
    """Return the thickness in mm of a stack once the fastener has drawn it together.

    Args:
        stack_mm: all that the fastener goes through, washers included.
        pinch_pct: by how much leather gives (``Constants.pinch``).
        washer_mm: how much of it are washers or spacers: metal and plastic do not give.
    """
    return (stack_mm - washer_mm) * (1 - pinch_pct / 100) + washer_mm


def post_window_mm(
    stack_mm: float, fastener: Fastener, *, pinch_pct: float, washer_mm: float = 0.0
) -> tuple[float, float]:
    """Return the shortest and the longest post in mm that hold a stack, on sale or not.

    A post fits from the pinched stack plus the fastener's least allowance up to the pinched stack
    plus its largest. The allowances carry their sources in the catalogue.
    """
    grip_mm = pinched_mm(stack_mm, washer_mm=washer_mm, pinch_pct=pinch_pct)
    least_mm, most_mm = fastener.over_stack_mm
    return grip_mm + least_mm, grip_mm + most_mm


def length_fits(
    stack_mm: float,
    fastener: Fastener,
    length_mm: float,
    *,
    pinch_pct: float,
    washer_mm: float = 0.0,
) -> bool:
    """Tell whether a post of this length in mm holds a stack."""
    least_mm, most_mm = post_window_mm(
        stack_mm, fastener, washer_mm=washer_mm, pinch_pct=pinch_pct
    )
    return least_mm - _SLACK_MM <= length_mm <= most_mm + _SLACK_MM


def choose_length(
    stack_mm: float, fastener: Fastener, *, pinch_pct: float, washer_mm: float = 0.0
) -> float | None:
    """Return the shortest post on sale in mm that holds a stack, or ``None`` where none does.

    Of leather sold as a range, give the stack at the upper end: a post may be too long, and shows
    it, but one too short pops off the wearer.
    """
    for length_mm in sorted(fastener.lengths_mm):
        if length_fits(stack_mm, fastener, length_mm, washer_mm=washer_mm, pinch_pct=pinch_pct):
            return length_mm
    return None
