"""Straps: their ends, sizes, and the girths they close round."""
