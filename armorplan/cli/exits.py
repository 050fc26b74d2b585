"""Exit codes, the same for every command."""

CLEAN, FAULTY, UNREADABLE = 0, 1, 2
"""Nothing wrong; something wrong in the pattern or no answer; nothing that can be read."""
