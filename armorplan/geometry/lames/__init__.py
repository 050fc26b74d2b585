"""Lames on their pivots: overlap and gap over the range of motion, axes, slots, nesting."""
