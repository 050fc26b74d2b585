"""The dry fits of a sheet are reckoned with the pins that are owned when it is made."""

from dataclasses import replace

from armorplan.app.sheet_fits import fits_of


def test_fewer_pins_make_more_rounds_on_the_sheet(begun):
    derived = begun[1].derived
    (plenty,) = fits_of(derived)
    few = tuple(replace(pin, owned=1) for pin in derived.shelf.pins)
    (told,) = fits_of(derived, few)
    assert len(plenty.sheet.rounds) == 1 < len(told.sheet.rounds)


def test_a_session_reads_them_when_the_sheet_is_made(bench):
    pins = bench.session.derived.shelf.pins
    asked = []

    def held():
        asked.append(True)
        return tuple(replace(pin, owned=1) for pin in pins)

    making = bench.session.making_sheet(with_parts=False, pins=held)
    assert asked == []
    titles = [
        one.title
        for chapter in making().chapters
        for run in chapter.runs
        for fit in run.fits
        for one in fit.rounds
    ]
    assert asked == [True]
    assert titles[0].startswith("Round 1 of ")
