"""SQLite: the workshop file with its migrations."""
