"""Rows that meet: spacing, hand, girth, and what of them has to be mended."""
