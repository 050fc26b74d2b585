"""Who answered which exercise, and how: rows are only added."""

from collections.abc import Callable
from datetime import datetime
from functools import lru_cache
from typing import Any

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
_SINCE = "SELECT * FROM drills WHERE person = :person AND seq > :seq ORDER BY seq"
_REASONS_SINCE = """
    SELECT drill_reasons.* FROM drill_reasons JOIN drills ON drills.seq = drill_reasons.drill
    WHERE drills.person = :person AND drills.seq > :seq ORDER BY drill_reasons.seq
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
        asked = {"person": person, "seq": seq}
        results = self._tables.read(_result, _SINCE, asked)
        met: dict[int, list[ReasonMet]] = {}
        for drill, reason in self._tables.read(_reason, _REASONS_SINCE, asked):
            met.setdefault(drill, []).append(reason)
        return tuple(result(tuple(met.get(number, ()))) for number, result in results)

    def people(self) -> tuple[str, ...]:
        """Return who has results, by id, in the order in which they began."""
        return self._tables.read(lambda row: str(row["person"]), _PEOPLE, {})

    def number(self) -> int:
        """Return the number of the result kept last; 0 where there is none."""
        return self._tables.read(lambda row: int(row["seq"]), _NUMBER, {})[0]


def _reason_row(reason: ReasonMet) -> Row:
    return {
        "rule": reason.rule,
        "name": reason.name,
        "kept": int(reason.kept),
        "decided": int(reason.decided),
    }


def _reason(row: Row) -> tuple[int, ReasonMet]:
    return row["drill"], _met(row["rule"], row["name"], row["kept"], row["decided"])


@lru_cache(maxsize=1024)
def _met(rule: str, name: str, kept: int, decided: int) -> ReasonMet:
    """Return a reason that was met; the same few stand in thousands of rows."""
    return ReasonMet(rule=rule, name=name, kept=bool(kept), decided=bool(decided))


def _result(row: Row) -> tuple[int, Callable[[tuple[ReasonMet, ...]], Result]]:
    """Return a result's number, and what makes it with its reasons."""
    values = dict[str, Any](
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
    return row["seq"], lambda reasons: Result(reasons=reasons, **values)
