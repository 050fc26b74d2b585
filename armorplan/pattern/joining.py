"""How parts are held together and shaped: joints, seams, threads, forms, treatments."""

from dataclasses import dataclass
from enum import StrEnum

from armorplan.pattern.parts import MadeOn, Point


class JointKind(StrEnum):
    """How a joint holds."""

    RIVET = "rivet"
    SCREW = "screw"
    GLUE = "glue"
    STITCH = "stitch"
    LACE = "lace"

    @property
    def is_permanent(self) -> bool:
        """Rivet, glue and stitch stay; a screw post opens again and a lace is untied."""
        return self not in (JointKind.SCREW, JointKind.LACE)


class Motion(StrEnum):
    """How the parts may move on a joint."""

    FIXED = "fixed"
    TURNING = "turning"
    SLIDING = "sliding"


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """One fastener through a stack of holes, or a surface or row that is glued, stitched or laced.

    Attributes:
        stack: ids of the holes it passes, the outermost layer first. Two holes of one part are
            ordinary: a strap folded round a ring, a loop closed on itself. Of a lace, the holes in
            the order it passes them. Empty where ``layers`` says what is joined.
        layers: ids of the parts it joins where no fastener goes through single holes (glue, most
            stitching), the outermost first; empty where there is a stack.
        fastener: id in the catalogues: a fastener, a thread or lace, a glue; may be empty.
        motion: how the parts may move on it. A sliding joint names one slot in its stack.
        placed_on_wearer: its holes are marked on the wearer at the dry fit and punched then.
        made_on: the side it is made on where it joins a part made once to one made left and right.
        washer_mm: thickness of washers or spacers in the stack beside the layers.
        post_mm: the post the maker takes; ``None``: the shortest on sale that holds the stack.
        length_mm: length of a stitched or laced row; ``None``: the edge of the smaller layer.
        area_mm2: glued area; ``None``: the whole of the smaller layer.
        only_with: choices it is made with (see ``pattern.options``).
    """

    id: str
    kind: JointKind
    stack: tuple[str, ...] = ()
    fastener: str = ""
    motion: Motion = Motion.FIXED
    placed_on_wearer: bool = False
    layers: tuple[str, ...] = ()
    made_on: MadeOn = MadeOn.BOTH
    washer_mm: float = 0.0
    post_mm: float | None = None
    length_mm: float | None = None
    area_mm2: float | None = None
    notes: str = ""
    only_with: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """A row of joints worked as one, in their order along the row."""

    id: str
    name: str
    joints: tuple[str, ...]
    notes: str = ""


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
    made_on: MadeOn = MadeOn.BOTH
    notes: str = ""
    only_with: tuple[str, ...] = ()


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
    HARDENED = "hardened"
    WET_FOLD = "wet_fold"


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A fold, a bend about an axis, a dishing, or the closure that seams draw.

    A ``damp`` form is cased, shaped within the damp window and dried; a ``dry`` form is curved by
    hand after the finish; a ``by_seam`` form is made by setting its seams; a ``hardened`` form is
    shaped damp, dried and then hardened with ``hardening`` (a treatment of the catalogue); a
    ``wet_fold`` is folded damp along a line, held and dried.

    Attributes:
        axis: two points of the line it bends about, in mm on the drawing; ``None``: not said.
        radius_mm: inner radius of the bend.
        angle_deg: how far it is bent.
        only_with: choices it is made with (see ``pattern.options``).
    """

    id: str
    kind: FormKind
    parts: tuple[str, ...]
    route: Route
    radius_mm: float | None = None
    angle_deg: float | None = None
    seams: tuple[str, ...] = ()
    axis: tuple[Point, Point] | None = None
    hardening: str | None = None
    notes: str = ""
    only_with: tuple[str, ...] = ()


class Applying(StrEnum):
    """How a treatment is put on."""

    WIPE = "wipe"
    DIP = "dip"


@dataclass(frozen=True, slots=True, kw_only=True)
class Treatment:
    """One use of a catalogue treatment on parts of the pattern, in coats."""

    id: str
    use: str
    parts: tuple[str, ...]
    colour: str | None = None
    coats: int = 1
    applying: Applying = Applying.WIPE
    notes: str = ""
    only_with: tuple[str, ...] = ()
