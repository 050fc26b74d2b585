"""Frozen facts of a pattern: parts, holes, joints, seams, forms, treatments."""
