"""Who answered which exercise, and how: rows are only added."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import datetime
from itertools import groupby

from armorplan.practice.drill import Asked, DrillKind, Level
from armorplan.practice.grades import Grade
from armorplan.practice.results import ReasonMet, Result
from armorplan.store.columns import Row, instant_text
from armorplan.store.tables import Tables

_ADD = """
    INSERT INTO drills (at, person, pattern, pattern_name, piece, kind, level, seed,
        asked_piece, asked_part, asked_focus, answer, right, grade, seconds, hint)
    VALUES (:at, :person, :pattern, :pattern_name, :piece, :kind, :level, :seed,
        :asked_piece, :asked_part, :asked_focus, :answer, :right, :grade, :seconds, :hint)
"""
_ADD_REASON = """
    INSERT INTO drill_reasons (drill, rule, name, kept, decided)
    VALUES ((SELECT max(seq) FROM drills), :rule, :name, :kept, :decided)
"""
"""In the transaction that adds the exercise, so that the last one is that."""
_SINCE = """
    SELECT drills.*, reasons.rule, reasons.name, reasons.kept, reasons.decided
    FROM drills LEFT JOIN drill_reasons AS reasons ON reasons.drill = drills.seq
    WHERE drills.person = :person AND drills.seq > :seq ORDER BY drills.seq, reasons.seq
"""
_PEOPLE = "SELECT person FROM drills GROUP BY person ORDER BY min(seq)"
_NUMBER = "SELECT coalesce(max(seq), 0) AS seq FROM drills"


class DrillFile:
    """Keeps results of practice; WorkshopError where the file cannot be read or written."""

    def __init__(self, tables: Tables) -> None:
        self._tables = tables

    def keep(self, result: Result) -> int:
        """Keep a result with the reasons it met, all or none; return its number."""
        asked = result.asked
        row = {
            "at": instant_text(result.at),
            "person": result.person,
            "pattern": result.pattern,
            "pattern_name": result.pattern_name,
            "piece": result.piece,
            "kind": asked.kind.value,
            "level": int(asked.level),
            "seed": asked.seed,
            "asked_piece": asked.piece,
            "asked_part": asked.part,
            "asked_focus": asked.focus,
            "answer": "\n".join(result.answer),
            "right": int(result.right),
            "grade": result.grade.value,
            "seconds": float(result.seconds),
            "hint": int(result.hint),
        }
        reasons = ((_ADD_REASON, _reason_row(reason)) for reason in result.reasons)
        return self._tables.write((_ADD, row), *reasons)[0]

    def since(self, person: str, seq: int) -> tuple[Result, ...]:
        """Return a person's results numbered above ``seq``, of whichever window, in order."""
        rows = self._tables.read(_result_and_reason, _SINCE, {"person": person, "seq": seq})
        return tuple(
            replace(result, reasons=tuple(reason for _, reason in same if reason))
            for result, same in ((own[0][0], own) for own in _by_result(rows))
        )

    def people(self) -> tuple[str, ...]:
        """Return who has results, by id, in the order in which they began."""
        return self._tables.read(lambda row: str(row["person"]), _PEOPLE, {})

    def number(self) -> int:
        """Return the number of the result kept last; 0 where there is none."""
        return self._tables.read(lambda row: int(row["seq"]), _NUMBER, {})[0]


_Both = tuple[Result, ReasonMet | None]


def _by_result(rows: Iterable[_Both]) -> Iterator[list[_Both]]:
    return (list(same) for _, same in groupby(rows, key=lambda both: both[0].seq))


def _reason_row(reason: ReasonMet) -> Row:
    return {
        "rule": reason.rule,
        "name": reason.name,
        "kept": int(reason.kept),
        "decided": int(reason.decided),
    }


def _result_and_reason(row: Row) -> _Both:
    return _result(row), None if row["rule"] is None else _reason(row)


def _reason(row: Row) -> ReasonMet:
    return ReasonMet(
        rule=row["rule"],
        name=row["name"],
        kept=bool(row["kept"]),
        decided=bool(row["decided"]),
    )


def _result(row: Row) -> Result:
    return Result(
        seq=row["seq"],
        at=datetime.fromisoformat(row["at"]),
        person=row["person"],
        pattern=row["pattern"],
        pattern_name=row["pattern_name"],
        piece=row["piece"],
        asked=Asked(
            kind=DrillKind(row["kind"]),
            seed=row["seed"],
            level=Level(row["level"]),
            piece=row["asked_piece"],
            part=row["asked_part"],
            focus=row["asked_focus"],
        ),
        answer=tuple(row["answer"].split("\n")) if row["answer"] else (),
        right=bool(row["right"]),
        grade=Grade(row["grade"]),
        seconds=row["seconds"],
        hint=bool(row["hint"]),
    )
