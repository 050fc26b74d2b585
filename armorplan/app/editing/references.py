"""Where a pattern's tables name each other: what goes, or changes its name, goes everywhere."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum, unique
from types import MappingProxyType
from typing import Any

from armorplan.pattern.joining import JointKind
from armorplan.steps.model import StepKind
from armorplan.steps.naming import kind_slug


@unique
class What(StrEnum):
    """What an id can name."""

    HOLE = "hole"
    LINE = "line"
    OUTLINE = "outline"
    JOINT = "joint"
    SEAM = "seam"
    PART = "part"
    PIECE = "piece"
    FORM = "form"
    MATERIAL = "material"


@dataclass(frozen=True, slots=True, kw_only=True)
class Naming:
    """A key of a table that names things.

    An entry with fewer than ``least`` of them is nothing, unless another key is written there.
    """

    table: str
    key: str
    least: int = 1
    unless: str = ""


def _n(table: str, key: str, least: int = 1, unless: str = "") -> Naming:
    return Naming(table=table, key=key, least=least, unless=unless)


NAMINGS: Mapping[What, tuple[Naming, ...]] = MappingProxyType(
    {
        What.HOLE: (
            _n("joints", "stack", 2),
            _n("strap_places", "holes", 0),
            _n("corrections", "holes"),
        ),
        What.LINE: (_n("forms", "axis", 0),),
        What.OUTLINE: (_n("parts", "outline"), _n("threads", "through"), _n("joints", "stack", 2)),
        What.JOINT: (
            _n("seams", "joints"),
            _n("threads", "closed_by", 0),
            _n("hardware", "held_by", 0),
            _n("parts", "hides", 0),
        ),
        What.SEAM: (_n("forms", "seams"),),
        What.PART: (
            _n("joints", "layers", 2),
            _n("threads", "part"),
            _n("threads", "through"),
            _n("hardware", "part"),
            _n("forms", "parts"),
            _n("treatments", "parts", unless="pieces"),
            _n("strap_places", "strap"),
            _n("strap_places", "meets"),
            _n("movements", "parts", 2),
            _n("fit_checks", "parts"),
            _n("suspensions", "part"),
            _n("own_steps", "parts"),
            _n("parts", "lies_over", 0),
            _n("holes", "part"),
            _n("scalings", "parts"),
        ),
        What.PIECE: (
            _n("parts", "piece"),
            _n("treatments", "pieces", unless="parts"),
            _n("harness", "pieces"),
            _n("fit_checks", "piece"),
            _n("suspensions", "piece"),
            _n("own_steps", "piece"),
        ),
        What.MATERIAL: (_n("parts", "material"),),
        What.FORM: (),
    }
)
TABLES: Mapping[str, What] = MappingProxyType(
    {
        "joints": What.JOINT,
        "seams": What.SEAM,
        "parts": What.PART,
        "pieces": What.PIECE,
        "forms": What.FORM,
        "materials": What.MATERIAL,
    }
)
"""Tables whose entries are named by others."""
STEP_KEYS: Mapping[str, tuple[Naming, ...]] = MappingProxyType(
    {
        "relations": (
            _n("relations", "first"),
            _n("relations", "then"),
            _n("relations", "before_all_of"),
            _n("relations", "after_any_of"),
            _n("relations", "together", 2),
            _n("relations", "apart", 2),
        ),
        "overruled": (_n("overruled", "step"), _n("overruled", "other")),
    }
)
"""Keys that name steps, as ``rivet/left_row_1``."""
_JOINT_SLUGS = frozenset(kind_slug(StepKind(kind.value)) for kind in JointKind)
_FORM_SLUGS = frozenset(
    map(kind_slug, (StepKind.CASE, StepKind.FORM, StepKind.FORM_DRY, StepKind.HARDEN))
)


def names_step_of(step: str, what: What, name: str) -> bool:
    """Tell whether a step's name is that of a step on a joint, seam, form, part or piece."""
    kind, _, subject = step.partition("/")
    if subject.partition(".")[0] != name:
        return False
    if what is What.SEAM:
        return kind == "seam"
    if what is What.JOINT:
        return kind in _JOINT_SLUGS
    if what is What.FORM:
        return kind in _FORM_SLUGS
    return what in (What.PART, What.PIECE) and kind not in {*_JOINT_SLUGS, *_FORM_SLUGS, "seam"}


def users(
    values: Mapping[str, Any], what: What, name: str
) -> Iterator[tuple[Naming, str, tuple[str, ...]]]:
    """Yield each key that names a thing: the key, the entry, and all that it holds."""
    for naming in NAMINGS[what]:
        for entry, held in _held(values, naming):
            if name in held:
                yield naming, entry, held


def step_users(
    values: Mapping[str, Any], what: What, name: str
) -> Iterator[tuple[Naming, str, tuple[str, ...]]]:
    """Yield each key that names a step of a thing: the key, the entry, and all that it holds."""
    for naming in (each for keys in STEP_KEYS.values() for each in keys):
        for entry, held in _held(values, naming):
            if any(names_step_of(step, what, name) for step in held):
                yield naming, entry, held


def _held(values: Mapping[str, Any], naming: Naming) -> Iterator[tuple[str, tuple[str, ...]]]:
    table = values.get(naming.table)
    for entry, told in table.items() if isinstance(table, Mapping) else ():
        held = told.get(naming.key) if isinstance(told, Mapping) else None
        if isinstance(held, str):
            yield entry, (held,)
        elif isinstance(held, list):
            yield entry, tuple(each for each in held if isinstance(each, str))
