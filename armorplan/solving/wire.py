"""Models and answers as plain JSON objects, loss-free: how they cross to the worker process."""

from dataclasses import fields
from typing import Any, get_args

from armorplan.solving.model import (
    Answer,
    Constraint,
    Effort,
    Interval,
    Model,
    Number,
    Objective,
    Outcome,
)

_CONSTRAINTS = {kind.__name__: kind for kind in get_args(Constraint)}
_OBJECTIVES = {kind.__name__: kind for kind in get_args(Objective)}


def model_to_wire(model: Model) -> dict[str, Any]:
    """Return the model as an object that JSON can write."""
    return {
        "effort": _plain(model.effort),
        "numbers": [_plain(n) for n in model.numbers],
        "booleans": model.booleans,
        "intervals": [_plain(i) for i in model.intervals],
        "constraints": [_named(c) for c in model.constraints],
        "objective": None if model.objective is None else _named(model.objective),
        "hints": model.hints,
    }


def model_from_wire(raw: dict[str, Any]) -> Model:
    """Return the model ``model_to_wire`` wrote; KeyError or TypeError for anything else."""
    goal = raw["objective"]
    return Model(
        effort=Effort(**raw["effort"]),
        numbers=tuple(Number(**_frozen(n)) for n in raw["numbers"]),
        booleans=tuple(raw["booleans"]),
        intervals=tuple(Interval(**_frozen(i)) for i in raw["intervals"]),
        constraints=tuple(_thawed(c, _CONSTRAINTS) for c in raw["constraints"]),
        objective=None if goal is None else _thawed(goal, _OBJECTIVES),
        hints=_tuples(raw["hints"]),
    )


def answer_to_wire(answer: Answer) -> dict[str, Any]:
    """Return the answer as an object that JSON can write."""
    return _plain(answer)


def answer_from_wire(raw: dict[str, Any]) -> Answer:
    """Return the answer ``answer_to_wire`` wrote."""
    values = _frozen(raw)
    return Answer(**{**values, "status": Outcome(values["status"])})


def _plain(value: Any) -> dict[str, Any]:
    return {f.name: getattr(value, f.name) for f in fields(value)}


def _named(value: Any) -> dict[str, Any]:
    return {"kind": type(value).__name__, **_plain(value)}


def _thawed(raw: dict[str, Any], kinds: dict[str, Any]) -> Any:
    rest = _frozen(raw)
    return kinds[rest.pop("kind")](**rest)


def _frozen(raw: dict[str, Any]) -> dict[str, Any]:
    return {key: _tuples(value) for key, value in raw.items()}


def _tuples(value: Any) -> Any:
    return tuple(_tuples(v) for v in value) if isinstance(value, list) else value
