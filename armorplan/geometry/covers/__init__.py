"""Covers: which heads and holes a part hides once it is fixed."""
