"""Frozen rows that views show. Plain values: ids, words, instants and millimetres, no Qt."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from armorplan.app.bells import Bell, BellKind
from armorplan.app.chart_air import AirStretch
from armorplan.geometry.marks import Mark
from armorplan.pattern.parts import Point, Ring
from armorplan.relations.model import Quantity


class BenchState(StrEnum):
    """How a step stands at the bench, as a word for the maker."""

    READY = "ready now"
    WAITING = "waits"
    RUNNING = "under way"
    PAUSED = "paused"
    DRYING = "drying"
    DONE = "done"
    EARLY = "done early"
    MISSED = "missed"


class Grouping(StrEnum):
    """How the checklist is grouped."""

    PIECE = "by piece"
    DAY = "by day"


@dataclass(frozen=True, slots=True, kw_only=True)
class TimerRow:
    """A timer that runs or is paused, or a window that a step has to begin in.

    ``running_since`` is ``None`` while paused. ``elapsed_s`` counts to the instant the row was
    made (``as_of``); a view adds what passed since then.

    Attributes:
        step: the step it is about; empty for a free timer.
        due_at: the instant of its moment: of what rings now, else of what comes next.
        id: the same as long as it runs, also in another window and after a restart.
        kind: what that moment is.
        build, build_title: of another build of the workshop; empty for the one that is open.
        free: set by hand, for nothing of the build.
        hushed: its last moment passed and was answered.
        surely_at: where ``due_at`` is only likely (a drying): by when it surely is so.
        meaning: what the moment means, in whole sentences.
        remedy: what to do where the moment was missed; it is the end of the meaning, too.
        next_bell_at: when it rings next, ``None`` if never again.
        every_min: of a watch, once in so many minutes; else 0.
        bells: all its moments, the first one first.
        boot_id: the machine's run it counts from; in a later one only the wall clock is left.
    """

    step: str
    title: str
    elapsed_s: float
    as_of: datetime
    running_since: datetime | None
    planned_min: float
    due_at: datetime | None
    drying: bool = False
    id: str = ""
    kind: BellKind = BellKind.DUE
    build: str = ""
    build_title: str = ""
    free: bool = False
    hushed: bool = False
    surely_at: datetime | None = None
    meaning: str = ""
    remedy: str = ""
    next_bell_at: datetime | None = None
    every_min: int = 0
    bells: tuple[Bell, ...] = ()
    boot_id: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChecklistRow:
    """One line of the checklist: a heading, a tray, or a step.

    ``id`` is unique in the checklist: a step's id, or ``heading:…`` / ``tray:…``. ``steps`` are
    the step ids it stands for (one for a step). ``waits_for`` says in a few words what it waits
    for; empty where it waits for nothing. ``company`` says who does it with whom beside.
    """

    id: str
    parent: str | None
    title: str
    kind: str
    state: BenchState
    steps: tuple[str, ...]
    parts: tuple[str, ...]
    joints: tuple[str, ...]
    minutes: int
    attended: bool
    done_count: int
    start_at: datetime | None = None
    end_at: datetime | None = None
    waits_for: str = ""
    company: str = ""
    detail: str = ""
    cautions: tuple[str, ...] = ()
    timer: TimerRow | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DiagramPart:
    """A part as drawn: rings in mm, y downwards, already laid where the diagram shows them."""

    id: str
    name: str
    kind: str
    piece: str
    outline: Ring
    slots: tuple[Ring, ...]
    label_at: Point
    layer: int
    """Drawn in this order, small first: the outermost layer has the largest number."""
    side: str = ""
    """The side of the wearer; empty for what is not made left and right."""
    plain_name: str = ""
    """The name without its side; empty where that is the name."""
    up_deg: float = 90.0
    """Where 'up' on the wearer lies as drawn; 0 is right, 90 is up the page."""
    from_inside: bool = False
    """The face that will lie inward is the one shown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DiagramHole:
    """A hole as drawn, with the joint that passes it (``None`` for a free hole)."""

    id: str
    part: str
    joint: str | None
    centre: Point
    diameter_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DiagramJoint:
    """A joint: its fastener, head, stack (outermost first, by part name) and how it stands."""

    id: str
    kind: str
    fastener: str
    head_mm: float
    stack: tuple[str, ...]
    parts: tuple[str, ...]
    step: str | None
    state: BenchState


@dataclass(frozen=True, slots=True, kw_only=True)
class DiagramMark:
    """A mark over the parts, laid where the diagram shows its part (``mark.part`` has its side).

    ``measure`` is the id of what the shapes tell that it belongs to.
    """

    measure: str
    mark: Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagram:
    """Everything the diagram of the parts shows."""

    parts: tuple[DiagramPart, ...]
    holes: tuple[DiagramHole, ...]
    joints: tuple[DiagramJoint, ...]
    marks: tuple[DiagramMark, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class GraphNode:
    """A node of the assembly graph (a part) or of the step graph (a step or a tray)."""

    id: str
    label: str
    kind: str
    state: BenchState
    steps: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class GraphEdge:
    """An edge; ``label`` says joint or rule, ``joints`` which fasteners it stands for."""

    tail: str
    head: str
    label: str
    joints: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class GraphRows:
    """A graph to show; ``directed`` tells whether edges have a direction."""

    nodes: tuple[GraphNode, ...]
    edges: tuple[GraphEdge, ...]
    directed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartBar:
    """One bar of the coming days. ``lane`` is a person's name, or the drying lane's.

    ``surely_at``: by then nine of ten dryings like it are ready; ``None`` where that is not known.
    ``note``: of a drying when it is ready, how sure that is and why it takes so long; else empty.
    """

    step: str
    title: str
    lane: str
    start_at: datetime
    end_at: datetime
    attended: bool
    state: BenchState
    surely_at: datetime | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """The coming days: bars, lanes top down, closed stretches (nights), and the present.

    ``air``: the air of the room along them; empty where it is always the same.
    ``names``: what people are called, baths and places, by their ids; see ``lane_names``.
    """

    bars: tuple[ChartBar, ...]
    lanes: tuple[str, ...]
    closed: tuple[tuple[datetime, datetime], ...]
    now_at: datetime
    zone: str
    air: tuple[AirStretch, ...] = ()
    names: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyLine:
    """One reason: the other step, whether it is already met, and the rule's sentence.

    ``also`` marks a reason that holds as well, but that another line already sees to: a rivet
    waits for its leather to be cut, yet long before that for the dry fit. ``overruled`` marks one
    the maker set aside: it holds nothing up, and ``text`` ends with why. ``not_kept`` says of one that only steers what it
    gives way to, where the order does not keep it; it holds nothing up either. ``exact``: the
    numbers as they were reckoned.
    """

    rule: str
    other: str
    other_title: str
    met: bool
    text: str
    force: str
    source: str
    numbers: tuple[str, ...]
    also: bool = False
    overruled: bool = False
    not_kept: str = ""
    exact: tuple[Quantity, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """Why a step stands where it stands: what it waits for, and what waits for it."""

    step: str
    title: str
    state: BenchState
    needs: tuple[WhyLine, ...]
    holds_up: tuple[WhyLine, ...]
    detail: str
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Selection:
    """What is chosen, shared by all views."""

    steps: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()
