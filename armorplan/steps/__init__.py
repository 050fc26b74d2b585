"""The work of a build: steps with their durations, trays and batch keys."""
