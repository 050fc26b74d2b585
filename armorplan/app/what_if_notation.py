"""How a change of the shop is written in one line; imports nothing, since every --help shows it."""

NOTATION = (
    "NAME:+N (so many more racks, baths, presses or people like this one), "
    "extra:WHO:2026-12-02T18:00-21:00 (an extra evening), "
    "away:WHO:2026-12-02T13:00-17:00 or away:WHO:2026-12-02..2026-12-04 (ill or away), "
    "hours over several days as 2026-12-02T13:00..2026-12-04T12:00; "
    "a comma joins changes that are made together"
)
"""How a change is written; times are the shop's local ones, days run to their midnight."""
