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
    THREAD = "thread"
    HARDWARE = "hardware"
    CHECK = "check"
    OWN_STEP = "own step"


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
        What.THREAD: (),
        What.HARDWARE: (),
        What.CHECK: (),
        What.OWN_STEP: (),
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
        "threads": What.THREAD,
        "hardware": What.HARDWARE,
        "fit_checks": What.CHECK,
        "own_steps": What.OWN_STEP,
        "holes": What.HOLE,
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
_STEP_KINDS: Mapping[What, frozenset[str]] = MappingProxyType(
    {
        What.JOINT: frozenset(kind_slug(StepKind(kind.value)) for kind in JointKind),
        What.SEAM: frozenset({"seam"}),
        What.FORM: frozenset(
            map(kind_slug, (StepKind.CASE, StepKind.FORM, StepKind.FORM_DRY, StepKind.HARDEN))
        ),
        What.THREAD: frozenset({kind_slug(StepKind.THREAD)}),
        What.HARDWARE: frozenset({kind_slug(StepKind.MOUNT)}),
        What.CHECK: frozenset({kind_slug(StepKind.CHECK)}),
        What.OWN_STEP: frozenset({kind_slug(StepKind.OWN)}),
    }
)
"""What the subject of a step of these kinds is; of all other kinds it is a part or a piece."""
_OF_OTHERS = frozenset().union(*_STEP_KINDS.values())


def step_names(step: str, what: What, name: str) -> bool:
    """Tell whether a step, as ``rivet/left_row_1``, is one on a thing.

    A piece is also named behind a treatment that several pieces get: ``dye/colour.elbow.coat-1``.
    """
    kind, _, subject = step.partition("/")
    words = subject.split(".")
    if what is What.PIECE:
        return name in words and kind not in _OF_OTHERS
    if words[0] != name:
        return False
    kinds = _STEP_KINDS.get(what)
    return kind not in _OF_OTHERS and what is What.PART if kinds is None else kind in kinds


def step_called(step: str, what: What, name: str, new: str) -> str:
    """Return a step on a thing as it is named when the thing has another name."""
    kind, _, subject = step.partition("/")
    words = subject.split(".")
    at = words.index(name) if what is What.PIECE else 0
    words[at] = new
    return f"{kind}/{'.'.join(words)}"


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
            if any(step_names(step, what, name) for step in held):
                yield naming, entry, held


def _held(values: Mapping[str, Any], naming: Naming) -> Iterator[tuple[str, tuple[str, ...]]]:
    table = values.get(naming.table)
    for entry, told in table.items() if isinstance(table, Mapping) else ():
        held = told.get(naming.key) if isinstance(told, Mapping) else None
        if isinstance(held, str):
            yield entry, (held,)
        elif isinstance(held, list):
            yield entry, tuple(each for each in held if isinstance(each, str))
