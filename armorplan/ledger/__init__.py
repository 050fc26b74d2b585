"""What happened at the bench: events, the state derived from them, timers."""
