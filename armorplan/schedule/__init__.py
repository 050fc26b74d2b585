"""The neutral planning problem, calendars, serial plan, CP-SAT model and the checker."""
