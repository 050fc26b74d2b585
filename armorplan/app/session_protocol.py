"""What a view may ask of the session and tell it. ``session.Session`` fulfils it."""

from collections.abc import Callable
from typing import Protocol

from armorplan.app.absences import Absences
from armorplan.app.asking_between import Between
from armorplan.app.bench_card import BenchCard
from armorplan.app.closes_off import ClosesOff
from armorplan.app.cutting import Cutting
from armorplan.app.drying_choices import Dryings
from armorplan.app.drying_protocol import BenchDrying
from armorplan.app.fit_protocol import DryFits
from armorplan.app.keepsakes import Keepsakes
from armorplan.app.needs_rows import NeedsPage
from armorplan.app.plan_face import PlanFace
from armorplan.app.practice_protocol import Practising
from armorplan.app.reach_rows import ReachTrack
from armorplan.app.rows import (
    Chart,
    ChecklistRow,
    Diagram,
    GraphRows,
    Grouping,
    Selection,
    TimerRow,
    Why,
)
from armorplan.app.shape_rows import ShapeRow
from armorplan.app.timing_protocol import BenchTiming
from armorplan.app.way_back_protocol import BenchWayBack
from armorplan.app.week_protocol import BenchWeek
from armorplan.kernel.findings import Finding
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.problem import Problem
from armorplan.sheets.bench_sheet_model import BenchSheet
from armorplan.workshop.pins import PinEntry


class BenchSession(BenchWeek, Protocol):
    """The current build: rows out, bench actions in.

    With 300 parts in 2,800 steps a call takes up to 50 ms (the whole checklist, or a tick of
    hundreds of steps); the first one after something changed up to 30 ms more, for the states of
    all steps, and the first step graph of a build 80 ms. Only ``problem`` and ``needs``
    may take longer.

    Actions return a sentence for the status line, with the consequence where a step was done
    early; they never refuse what happened.
    """

    @property
    def build_id(self) -> str:
        """The build's id, first part of its steps' ids."""
        ...

    @property
    def title(self) -> str:
        """The build's name for the window title."""
        ...

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What was found when the pattern was read."""
        ...

    def checklist(self, grouping: Grouping) -> tuple[ChecklistRow, ...]:
        """Rows in order, parents before children."""
        ...

    def timers(self) -> tuple[TimerRow, ...]:
        """Timers that run or are paused, also of other builds, soonest due first."""
        ...

    @property
    def timing(self) -> BenchTiming:
        """What rings, was missed, and is set by hand."""
        ...

    @property
    def drying(self) -> BenchDrying:
        """Looks at what dries, and what they taught."""
        ...

    @property
    def absences(self) -> Absences:
        """Who is away."""
        ...

    @property
    def keepsakes(self) -> Keepsakes:
        """Notes, measurements and photos of its steps and parts."""
        ...

    @property
    def cutting(self) -> Cutting:
        """What is cut, and what machines were set to."""
        ...

    @property
    def practice(self) -> Practising:
        """Exercises of the build, who answered which, and what was signed off."""
        ...

    @property
    def way_back(self) -> BenchWayBack:
        """What went wrong, and the ways back."""
        ...

    def diagram(self) -> Diagram:
        """The parts from their real outlines."""
        ...

    def shapes(self) -> tuple[ShapeRow, ...]:
        """What rows, covers, bends, posts and lames tell, sound or not, by topic."""
        ...

    def tracing_reach(self) -> Callable[[], ReachTrack]:
        """What reckons reach along the order, which takes a while; call it in another thread."""
        ...

    def asking_between(self) -> Between:
        """What tells which of two comes first, which takes a while; ask it in another thread."""
        ...

    def asking_fit(self) -> DryFits:
        """What reckons the dry fits, which may take a while; ask it in another thread."""
        ...

    def assembly_graph(self) -> GraphRows:
        """Parts and what holds them together."""
        ...

    def step_graph(self) -> GraphRows:
        """Steps (grouped by tray) and what comes before what."""
        ...

    def chart(self) -> Chart:
        """The coming days."""
        ...

    def dryings(self) -> Dryings:
        """What dries in the build, since when and in which air."""
        ...

    def plan_face(self) -> PlanFace:
        """The plan in words."""
        ...

    def effort_told(self) -> str:
        """What setting the joints takes in this order, and the least, in words; may be empty."""
        ...

    def needs(self, tray: str = "") -> NeedsPage:
        """What the build uses up, baths for one of the shop's trays; the first where none is named.

        Reckoned once for a build and tray; the first time it may take longer than 50 ms.
        """
        ...

    def needs_csv(self, tray: str = "") -> str:
        """The same as a table of figures, one a line."""
        ...

    def why(self, step: str) -> Why:
        """Why a step stands where it stands; KeyError where there is no such step."""
        ...

    def bench_card(self, step: str) -> BenchCard:
        """What the bench view says of a step; KeyError where there is no such step."""
        ...

    def asking_commit(self, step: str) -> Callable[[], ClosesOff]:
        """What tells what doing a step now closes off, which takes a while; ask it in another thread."""
        ...

    def choose_steps(self, steps: tuple[str, ...]) -> Selection:
        """What lights up when these steps are chosen: their parts and joints."""
        ...

    def choose_joint(self, joint: str) -> Selection:
        """What lights up for a fastener: its step, its parts."""
        ...

    def choose_part(self, part: str) -> Selection:
        """What lights up for a part: its steps still to do, its joints."""
        ...

    def choose_spoken_of(self, ids: tuple[str, ...]) -> Selection:
        """What lights up for the ids a finding or a measure speaks of, with or without a side."""
        ...

    def ready_steps(self) -> tuple[str, ...]:
        """Steps that may be done now, in the plan's order."""
        ...

    def start(self, steps: tuple[str, ...]) -> str:
        """Start or resume these steps."""
        ...

    def pause(self, steps: tuple[str, ...]) -> str:
        """Pause these steps."""
        ...

    def done(self, steps: tuple[str, ...]) -> str:
        """Tick these steps (a whole tray or seam at once)."""
        ...

    def longer(self, steps: tuple[str, ...]) -> str:
        """Say that these steps, under way, take a quarter of an hour longer than was told so far."""
        ...

    def note(self, step: str, text: str) -> str:
        """Write a note to a step."""
        ...

    def undo(self) -> str:
        """Take back the last key press, as a new entry."""
        ...

    def undo_step(self, step: str) -> str:
        """Take back the last press that touched a step, also from under later ones.

        What was done since on its ground stands, and is told.
        """
        ...

    def waive(self, steps: tuple[str, ...], why: str) -> str:
        """Leave these fits out for a reason, which is kept; they count as signed off."""
        ...

    def redo(self) -> str:
        """Restore what was last taken back."""
        ...

    def can_undo(self) -> str:
        """What undo would take back, or an empty string."""
        ...

    def can_redo(self) -> str:
        """What redo would restore, or an empty string."""
        ...

    def plan_from_now(self) -> None:
        """Let the next problem count from this moment."""
        ...

    def problem(self) -> Problem:
        """The planning problem as things stand now."""
        ...

    def asking(self) -> Callable[[], Problem]:
        """What makes that problem, which may take a while; it may be called in another thread."""
        ...

    def problem_mark(self) -> object:
        """A value that is another as soon as the problem has to be made anew."""
        ...

    def take_plan(self, answer: CheckedPlan) -> bool:
        """Show this plan if it answers the present problem and has passed the checker."""
        ...

    def making_sheet(
        self, *, with_parts: bool, pins: Callable[[], tuple[PinEntry, ...]] | None = None
    ) -> Callable[[], BenchSheet]:
        """What makes the bench sheet, in another thread; ``with_parts``: at full size.

        ``pins`` reads those that are owned by now; without it they are those of the build's shelf.
        """
        ...

    def read_along(self) -> bool:
        """Take in what another window wrote and what time alone changed; tell whether any did.

        Asked once a second; listeners hear of a change as of any other.
        """
        ...

    def subscribe(self, listener: Callable[[], None]) -> None:
        """Call ``listener`` after every change."""
        ...
