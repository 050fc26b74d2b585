"""Edits of a pattern's shapes and joints, each from one draft to the next."""
