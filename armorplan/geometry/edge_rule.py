"""How far a hole has to lie from an edge at least: for its size, and for the stack through it."""

EDGE_DIAMETERS = 2.0
"""Hole centre to edge, in diameters at least: FAA AC 43.13-1B, par. 4-57 and 4-58."""
EDGE_STACKS = 1.5
"""Hole centre to edge, in thicknesses of the stack (common practice, no source; from memory)."""
EDGE_ENOUGH_MM = 8.0
"""A thick stack asks for no more: 8–10 mm is usual at a strap's end (common practice, no source)."""
EDGE_LEAST_MM = 6.0
"""Nearer than this the awl already tears leather (common practice, no source; from memory)."""


def least_edge_mm(diameter_mm: float, stack_mm: float = 0.0) -> float:
    """Return the least distance in mm from a hole's centre to an edge."""
    by_stack_mm = min(EDGE_STACKS * stack_mm, EDGE_ENOUGH_MM)
    return max(EDGE_DIAMETERS * diameter_mm, by_stack_mm, EDGE_LEAST_MM)


def edge_rule(diameter_mm: float, stack_mm: float) -> str:
    """Say by what the least distance to an edge is asked, with its numbers."""
    least_mm = least_edge_mm(diameter_mm, stack_mm)
    if least_mm == EDGE_DIAMETERS * diameter_mm:
        return f"{EDGE_DIAMETERS:g} × its diameter of {diameter_mm:.1f} mm"
    if least_mm == EDGE_LEAST_MM:
        return "the least in any leather"
    if least_mm == EDGE_ENOUGH_MM:
        return f"what a stack of {stack_mm:.1f} mm asks for"
    return f"{EDGE_STACKS:g} × the stack of {stack_mm:.1f} mm"
