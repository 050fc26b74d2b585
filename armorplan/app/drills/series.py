"""Titles of steps of one row told as one: 'Rivet left row, 1 to 3 and 5 of 7'."""

import re
from collections.abc import Iterable, Iterator

_OF_A_ROW = re.compile(r"(?P<row>.*), (?P<at>\d+) of (?P<count>\d+)")
_SPAN = 3
"""From so many on a run is told by its ends."""


def in_series(titles: Iterable[str]) -> tuple[str, ...]:
    """Return titles with those of one row put together, where the first of them stands."""
    rows: dict[tuple[str, str], list[int]] = {}
    for title in titles:
        found = _OF_A_ROW.fullmatch(title)
        if found is None:
            rows[(title, "")] = []
        else:
            rows.setdefault((found["row"], found["count"]), []).append(int(found["at"]))
    return tuple(
        f"{row}, {_numbers(places)} of {count}" if places else row
        for (row, count), places in rows.items()
    )


def _numbers(places: Iterable[int]) -> str:
    told = [words for run in _runs(sorted(places)) for words in _said(run)]
    return " and ".join(filter(None, (", ".join(told[:-1]), *told[-1:])))


def _said(run: list[int]) -> list[str]:
    if len(run) < _SPAN:
        return [f"{at}" for at in run]
    return [f"{run[0]} to {run[-1]}"]


def _runs(places: Iterable[int]) -> Iterator[list[int]]:
    """Yield runs of numbers without a gap."""
    run: list[int] = []
    for at in places:
        if run and at != run[-1] + 1:
            yield run
            run = []
        run.append(at)
    if run:
        yield run
