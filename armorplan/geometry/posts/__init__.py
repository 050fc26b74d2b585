"""Fasteners: the stack pinched, the posts that hold it."""
