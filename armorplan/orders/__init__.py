"""Sequences of steps: one order, what may come next, which relation an order breaks."""
