"""A timer is typed as one would say it; nonsense is answered with what would be right."""

import pytest

from armorplan.desktop.timer_words import MOST_MIN, NotATimeError, Wanted, read_timer_words


@pytest.mark.parametrize(
    ("typed", "minutes", "title"),
    [
        ("12 glue", 12, "glue"),
        ("12", 12, ""),
        ("  7  min   rinse the brush ", 7, "rinse the brush"),
        ("1:30", 90, ""),
        ("1:30 dye bath", 90, "dye bath"),
        ("0:05 stir", 5, "stir"),
        ("2 h varnish", 120, "varnish"),
        ("2h", 120, ""),
        ("1 h 20 min oil", 80, "oil"),
        ("1h20 oil", 80, "oil"),
        ("1,5 h bath", 90, "bath"),
        ("1.5 h bath", 90, "bath"),
        ("2 days weights on", 2880, "weights on"),
        ("10 minutes: second coat", 10, "second coat"),
        ("15 mallets are put away", 15, "mallets are put away"),
        ("5 hides to turn", 5, "hides to turn"),
        ("3 dabs of dye", 3, "dabs of dye"),
        ("10, glue", 10, "glue"),
        ("0:30 glue", 30, "glue"),
        ("30 s glue", 0.5, "glue"),
        ("90 sec", 1.5, ""),
        ("2 min 15 s stir", 2.25, "stir"),
        ("30 straps to cut", 30, "straps to cut"),
    ],
)
def test_what_is_typed_is_read(typed, minutes, title):
    assert read_timer_words(typed) == Wanted(minutes, title)


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("", "Type minutes and what for, such as 12 glue"),
        ("   ", "Type minutes and what for"),
        ("glue", "“glue” does not begin with a time"),
        ("-5", "does not begin with a time"),
        ("1:75", "minutes after the colon go up to 59"),
        ("0", "5 s at least"),
        ("0:00 glue", "5 s at least"),
        ("4 s", "5 s at least"),
        ("99999", "two weeks at most"),
        (f"{MOST_MIN + 1}", "two weeks at most"),
        ("12glue", "does not begin with a time"),
        ("1e3 glue", "does not begin with a time"),
    ],
)
def test_nonsense_is_told_with_what_would_be_right(typed, told):
    with pytest.raises(NotATimeError, match=told.replace("“", ".").replace("”", ".")):
        read_timer_words(typed)


def test_two_weeks_can_be_set():
    assert read_timer_words("14 d").minutes == MOST_MIN
