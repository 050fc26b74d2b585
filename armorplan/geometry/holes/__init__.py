"""Holes: too near an edge or each other, and of the wrong size."""
