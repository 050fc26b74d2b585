"""How parts are held together and shaped: joints, seams, threads, forms, treatments."""

from dataclasses import dataclass
from enum import StrEnum


class JointKind(StrEnum):
    """How a joint holds."""

    RIVET = "rivet"
    SCREW = "screw"
    GLUE = "glue"
    STITCH = "stitch"

    @property
    def is_permanent(self) -> bool:
        """Rivet, glue and stitch stay; a screw post opens again."""
        return self is not JointKind.SCREW


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """One fastener through a stack of holes.

    Attributes:
        stack: ids of the holes it passes, the outermost layer first. Two holes of one part are
            ordinary: a strap folded round a ring, a loop closed on itself.
        fastener: id in the fastener catalogue.
        turning: the parts must turn on it.
        placed_on_wearer: its holes are marked on the wearer at the dry fit and punched then.
    """

    id: str
    kind: JointKind
    stack: tuple[str, ...]
    fastener: str
    turning: bool = False
    placed_on_wearer: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """A row of joints worked as one, in their order along the row."""

    id: str
    name: str
    joints: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """A strap or keeper passed through slots of other parts, or through a keeper.

    ``through`` names slots, or parts of kind keeper whose loop it passes. ``closed_by`` names
    joints that shut its way in, beside the joints of the threaded part's own ends.
    """

    id: str
    part: str
    through: tuple[str, ...]
    closed_by: tuple[str, ...] = ()


class FormKind(StrEnum):
    """A change of shape."""

    BEND = "bend"
    FOLD = "fold"
    DISH = "dish"
    CLOSURE = "closure"


class Route(StrEnum):
    """How a form is made."""

    DAMP = "damp"
    DRY = "dry"
    BY_SEAM = "by_seam"


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A fold, a bend about an axis, a dishing, or the closure that seams draw.

    A ``damp`` form is cased, shaped within the damp window and dried; a ``dry`` form is curved by
    hand after the finish; a ``by_seam`` form is made by setting its seams.
    """

    id: str
    kind: FormKind
    parts: tuple[str, ...]
    route: Route
    radius_mm: float | None = None
    angle_deg: float | None = None
    seams: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Treatment:
    """One use of a catalogue treatment on parts of the pattern, in coats."""

    id: str
    use: str
    parts: tuple[str, ...]
    colour: str | None = None
    coats: int = 1
