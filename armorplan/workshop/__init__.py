"""Frozen facts of a workshop: people, hours, tools, treatments and fasteners on the shelf."""
