"""The command line; the real clock, store and solver are made here."""
