"""What a bench sheet shows, as plain values in mm and words; no drawing."""

from dataclasses import dataclass

from armorplan.geometry.pictures import StackPicture
from armorplan.pattern.parts import Point, Ring
from armorplan.sheets.printer_scale import TRUE_SCALE, PrinterScale


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnHole:
    """A hole of a drawn part; ``mark`` numbers what is set there in this run, else it is empty."""

    centre: Point
    diameter_mm: float
    mark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPart:
    """A part as drawn, in mm, y down the page.

    Attributes:
        name: with its side.
        up_deg: where 'up' on the wearer lies; 0 is right, 90 is up the page.
        lit: worked at in this run; else it is only shown.
    """

    name: str
    outline: Ring
    slots: tuple[Ring, ...] = ()
    holes: tuple[DrawnHole, ...] = ()
    up_deg: float = 90.0
    lit: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """Parts drawn together, laid as the pattern's drawing has them or set side by side.

    ``caption`` says what the picture leaves out; it may be empty.
    """

    parts: tuple[DrawnPart, ...]
    as_laid: bool = False
    caption: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class StackDrawing:
    """A section through a fastener's layers, the name of the fastener, and where it is set."""

    picture: StackPicture
    title: str
    where: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLine:
    """A step, or the same step of left and right.

    Attributes:
        number: its number in the order, or both.
        boxes: a letter for each box to tick, empty for one alone; no box: time alone does it.
        spent: how long it takes, in words.
        when: from when to when, where it stands alone; empty on a sheet without dates.
        begins: when it begins, where it stands among others; empty on a sheet without dates.
        window: from when to when it has to be begun, in words; empty where that is free.
    """

    number: str
    title: str
    boxes: tuple[str, ...]
    spent: str
    detail: str = ""
    when: str = ""
    begins: str = ""
    window: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitRound:
    """One round of a dry fit: what is pinned in which order, and what to look at then."""

    title: str
    pins: tuple[str, ...]
    looks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetFit:
    """The dry fit of a piece: laid out first, then pinned in rounds.

    ``boxes``: a letter for each box to tick, as of a step.
    """

    title: str
    words: tuple[str, ...]
    lay_out: tuple[str, ...]
    rounds: tuple[FitRound, ...]
    boxes: tuple[str, ...] = ("",)


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRun:
    """Steps that follow each other and are one kind of work.

    Attributes:
        title: what the run is called; empty: its one line says it.
        summary: which steps, and how long they take.
        tools: what it is done with.
        cautions: each a sentence.
        cautions_at: the step at which they stand in full, where that is another; else empty.
        reasons: why it stands here, for the margin; each a sentence or two.
        fits: the dry fits that are led through in it.
    """

    title: str
    summary: str
    lines: tuple[SheetLine, ...]
    when: str = ""
    tools: str = ""
    cautions: tuple[str, ...] = ()
    cautions_at: str = ""
    reasons: tuple[str, ...] = ()
    scene: Scene | None = None
    stacks: tuple[StackDrawing, ...] = ()
    fits: tuple[SheetFit, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRow:
    """A row of cells; sentences that stand below it; ``under``: it belongs to the row above."""

    cells: tuple[str, ...]
    remarks: tuple[str, ...] = ()
    under: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetTable:
    """A headed table; ``shares`` of its width are its columns', where half of it is not the first's."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[SheetRow, ...]
    shares: tuple[float, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """A stretch of the order under a heading."""

    title: str
    intro: str
    runs: tuple[SheetRun, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FullLine:
    """A line on a part at full size, such as the axis of a bend, with what it says."""

    ends: tuple[Point, Point]
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FullPart:
    """A part to be printed at full size; lengths in mm, y down, mirrored where its side asks for it.

    Attributes:
        words: leather, thickness, how many; which face is the one printed.
        backbone_deg: where the hide's backbone lies; ``None``: any way.
    """

    name: str
    side: str
    piece: str
    outline: Ring
    slots: tuple[Ring, ...]
    holes: tuple[DrawnHole, ...]
    words: tuple[str, ...]
    up_deg: float
    backbone_deg: float | None = None
    lines: tuple[FullLine, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchSheet:
    """A bench sheet of one build.

    Attributes:
        title: the pattern's name.
        version: of the pattern, in words.
        facts: pairs of a word and what it is, for the cover.
        notes: the maker's own words on the pattern.
        days: the plan day by day, a table a day; empty on a sheet without dates.
        full: the parts at full size; empty where they are not asked for.
        parts_only: nothing but these, for the mock-up.
        scale: of the printer that they are drawn for.
    """

    title: str
    version: str
    facts: tuple[tuple[str, str], ...]
    cover: Scene
    chapters: tuple[Chapter, ...]
    notes: str = ""
    needs: tuple[SheetTable, ...] = ()
    days: tuple[SheetTable, ...] = ()
    full: tuple[FullPart, ...] = ()
    parts_only: bool = False
    scale: PrinterScale = TRUE_SCALE
