"""The whole pattern as one frozen value, with look-ups by id."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Protocol, TypeVar

from armorplan.pattern.joining import Form, Joint, Seam, Thread, Treatment
from armorplan.pattern.moving import Movement
from armorplan.pattern.options import Option
from armorplan.pattern.own_work import Correction, Overruling, OwnRelation, OwnStep, VersionNote
from armorplan.pattern.parts import Harness, Hole, Material, Part, Piece, Slot
from armorplan.pattern.sizing import DrawnFor, FittedTo, Scaling
from armorplan.pattern.wearing import FitCheck, HardwareUse, StrapPlace, Suspension


class _HasId(Protocol):
    @property
    def id(self) -> str: ...


_T = TypeVar("_T", bound=_HasId)


def _by_id(items: Iterable[_T]) -> dict[str, _T]:
    return {item.id: item for item in items}


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """What the pieces are: read from a folder, never changed in memory.

    ``uuid`` names the pattern for ever, ``version`` counts its issues, ``content_hash`` is the
    SHA-256 of its files as read. ``slug`` is the folder's name, used for build ids.
    """

    uuid: str
    slug: str
    name: str
    version: int
    content_hash: str
    notes: str = ""
    pieces: tuple[Piece, ...]
    materials: tuple[Material, ...]
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...] = ()
    seams: tuple[Seam, ...] = ()
    threads: tuple[Thread, ...] = ()
    forms: tuple[Form, ...] = ()
    treatments: tuple[Treatment, ...] = ()
    harnesses: tuple[Harness, ...] = ()
    hardware: tuple[HardwareUse, ...] = ()
    strap_places: tuple[StrapPlace, ...] = ()
    fit_checks: tuple[FitCheck, ...] = ()
    suspensions: tuple[Suspension, ...] = ()
    own_steps: tuple[OwnStep, ...] = ()
    own_relations: tuple[OwnRelation, ...] = ()
    overrulings: tuple[Overruling, ...] = ()
    corrections: tuple[Correction, ...] = ()
    options: tuple[Option, ...] = ()
    movements: tuple[Movement, ...] = ()
    drawn_for: tuple[DrawnFor, ...] = ()
    scalings: tuple[Scaling, ...] = ()
    fitted: FittedTo | None = None
    versions: tuple[VersionNote, ...] = ()
    _parts: dict[str, Part] = field(init=False, repr=False, compare=False)
    _joints: dict[str, Joint] = field(init=False, repr=False, compare=False)
    _holes: dict[str, Hole] = field(init=False, repr=False, compare=False)
    _slots: dict[str, Slot] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Index the tables once; the indexes are read only through the methods below."""
        set_once = object.__setattr__
        set_once(self, "_parts", _by_id(self.parts))
        set_once(self, "_joints", _by_id(self.joints))
        set_once(self, "_holes", _by_id(hole for part in self.parts for hole in part.holes))
        set_once(self, "_slots", _by_id(slot for part in self.parts for slot in part.slots))

    def part(self, part_id: str) -> Part:
        """Return a part by id; KeyError where there is none."""
        return self._parts[part_id]

    def joint(self, joint_id: str) -> Joint:
        """Return a joint by id; KeyError where there is none."""
        return self._joints[joint_id]

    def hole(self, hole_id: str) -> Hole:
        """Return a hole by id; KeyError where there is none."""
        return self._holes[hole_id]

    def slot(self, slot_id: str) -> Slot:
        """Return a slot by id; KeyError where there is none."""
        return self._slots[slot_id]

    def has_slot(self, slot_id: str) -> bool:
        """Tell whether the id names a slot (a thread may also pass through a keeper)."""
        return slot_id in self._slots

    def stack_parts(self, joint_id: str) -> tuple[str, ...]:
        """Return ids of the parts a joint passes or joins, the outermost first, repeats kept."""
        joint = self.joint(joint_id)
        return joint.layers or tuple(self.hole(hole).part for hole in joint.stack)
