"""Counts what was wrong with the rows of a logger's file, and tells each kind once."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from armorplan.files.faults import brief
from armorplan.files.limits import AIR_C, AIR_SPEED, HUMIDITY
from armorplan.kernel.findings import Finding, Place, Severity

_SHOWN_LINES = 4


@dataclass(slots=True)
class _Kind:
    lines: list[int] = field(default_factory=list)
    example: str = ""
    count: int = 0


_REMEDIES = {
    "log-time": "Write times like 2026-01-05 14:30.",
    "log-temperature": "Write it in °C, such as 18.5.",
    "log-humidity": "Write it in per cent, from 0 to 100.",
    "log-air-speed": "Write it in m/s, from 0 to 30.",
}
_WHAT = {
    "log-time": "a time that cannot be read",
    "log-temperature": f"a temperature that is not from {AIR_C.ends}",
    "log-humidity": f"a humidity that is not from {HUMIDITY.ends}",
    "log-air-speed": f"an air speed that is not from {AIR_SPEED.ends}",
}


class Tally:
    """The rows left out so far, by what was wrong with them."""

    def __init__(self, name: str) -> None:
        self.name = name
        self._kinds: dict[str, _Kind] = {}

    def leave_out(self, code: str, line: int, said: str) -> None:
        """Count a row that is left out, with what it says in the wrong place."""
        kind = self._kinds.setdefault(code, _Kind())
        kind.count += 1
        if len(kind.lines) < _SHOWN_LINES:
            kind.lines.append(line)
            kind.example = kind.example or said

    def findings(self) -> tuple[Finding, ...]:
        """Return one warning for each thing that was wrong."""
        return tuple(self._finding(code, kind) for code, kind in self._kinds.items())

    def _finding(self, code: str, kind: _Kind) -> Finding:
        example = f'"{brief(kind.example)}"' if kind.example else "nothing at all"
        reason = "It says" if kind.count == 1 else "They say, for one,"
        return Finding(
            code=code,
            severity=Severity.WARNING,
            text=f"{rows_words(kind.count)} left out for {_WHAT[code]}: "
            f"{lines_words(kind.lines, kind.count)}. {reason} {example}.",
            remedy=f"{_REMEDIES[code]} All other rows count.",
            place=Place(file=self.name, line=kind.lines[0]),
        )


def rows_words(count: int) -> str:
    """Return how many rows there are, and the verb that follows them."""
    return "1 row was" if count == 1 else f"{count:,} rows were"


def lines_words(lines: Sequence[int], count: int) -> str:
    """Return the lines, and how many more there are."""
    if count == 1:
        return f"line {lines[0]}"
    shown = ", ".join(str(line) for line in lines)
    more = count - len(lines)
    return f"lines {shown} and {more:,} more" if more else f"lines {shown}"
