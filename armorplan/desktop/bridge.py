"""The one Qt object between a session and the views: what changed, what is chosen, what was said."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, tzinfo
from typing import Protocol
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from PySide6.QtCore import QObject, Signal

from armorplan.app.entries import NOT_RECORDED
from armorplan.app.rows import Selection
from armorplan.app.session_protocol import BenchSession
from armorplan.app.way_back_protocol import Solve
from armorplan.kernel.clock import Clock
from armorplan.sheets.printer_scale import PrinterScale
from armorplan.solving.model import Answer, Model
from armorplan.workshop.pins import PinEntry


@dataclass(frozen=True, slots=True, kw_only=True)
class Questioned:
    """A reason between two steps; ``other`` is empty where it speaks of several."""

    rule: str
    step: str
    other: str


class Solver(Protocol):
    """What answers models; ``solving.keeper.SolverKeeper`` does."""

    def solve(self, model: Model, *, should_stop: Callable[[], bool] | None = None) -> Answer:
        """Answer a model; ArmorplanError where the solver was lost."""
        ...


def solve_with(solver: Solver | None, should_stop: Callable[[], bool]) -> Solve | None:
    """Return what asks a solver until it is told to stop; ``None`` where there is none."""
    if solver is None:
        return None
    return lambda model: solver.solve(model, should_stop=should_stop)


class PinBench(Protocol):
    """Keeps how many pins there are, in any thread. ``app.own_pins.OwnPins`` fulfils it."""

    def held(self) -> tuple[PinEntry, ...]:
        """Return the sizes, and how many of each are owned."""
        ...

    def keep(self, pin: str, owned: int) -> str:
        """Keep how many there are of a size, and say so."""
        ...

    def forget(self) -> str:
        """Keep that there are as many of each as are wanted, and say so."""
        ...


class PrinterBench(Protocol):
    """Keeps how the maker's printers draw. ``app.printer_scales.OwnPrinters`` fulfils it."""

    def scales(self) -> tuple[PrinterScale, ...]:
        """Return the printers whose bars were measured, by name."""
        ...

    def in_use(self) -> PrinterScale:
        """Return the printer that sheets are drawn for; a true one where none is."""
        ...

    def keep(self, scale: PrinterScale) -> None:
        """Keep how the bars of a printer came out, and draw sheets for it from now on."""
        ...

    def use(self, printer: str) -> None:
        """Draw sheets for a printer that is kept; empty: for one that draws true to size."""
        ...


class Bridge(QObject):
    """Holds the session and the shared selection, and tells the views.

    ``changed`` follows every change of rows, ``acted`` every bench action, ``selected`` carries
    the new ``rows.Selection``, ``said`` a sentence for the notice line, ``opened`` says that
    another build is shown, ``aired`` that the same one is reckoned in another air,
    ``pins_kept`` that there are other pins for dry fits, ``help_wanted`` carries the id of a page of the help, and ``questioned``
    a ``Questioned`` reason that is to be set aside or changed.
    """

    changed = Signal()
    acted = Signal()
    selected = Signal(object)
    said = Signal(str)
    opened = Signal()
    aired = Signal()
    pins_kept = Signal()
    help_wanted = Signal(str)
    questioned = Signal(object)

    def __init__(self, session: BenchSession, clock: Clock, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.clock = clock
        self.solver: Solver | None = None
        """Asks the solver, in its own process and never from the window's thread; none: do without."""
        self.pins: PinBench | None = None
        """Keeps how many pins the maker has; none: there are no catalogues to keep it in."""
        self.printers: PrinterBench | None = None
        """Keeps how the maker's printers draw; none: sheets are drawn true to size."""
        self._took_back = False
        self._selection = Selection()
        self._left = Selection()
        self._session = session
        self._zone = _zone_of(session)
        self._listen(session)

    @property
    def session(self) -> BenchSession:
        """The session whose rows are shown."""
        return self._session

    @property
    def zone(self) -> tzinfo:
        """The workshop's time zone, in which clock times are shown."""
        return self._zone

    @property
    def selection(self) -> Selection:
        """What is chosen now."""
        return self._selection

    @property
    def left(self) -> Selection:
        """What was chosen of the build that was shown before."""
        return self._left

    @property
    def took_back(self) -> bool:
        """Whether the last bench action took one back."""
        return self._took_back

    def open(self, session: BenchSession) -> None:
        """Show another build."""
        self._session = session
        self._zone = _zone_of(session)
        self._left, self._selection = self._selection, Selection()
        self._listen(session)
        # Views take in the new rows before anyone chooses among them.
        self.changed.emit()
        self.opened.emit()
        self.selected.emit(self._selection)

    def _listen(self, session: BenchSession) -> None:
        def heard() -> None:
            if session is self._session:
                self.changed.emit()

        session.subscribe(heard)

    def select(self, selection: Selection) -> None:
        """Make this the shared selection; nothing is told where it is so already."""
        if selection != self._selection:
            self._selection = selection
            self.selected.emit(selection)

    def choose_steps(self, steps: tuple[str, ...]) -> None:
        """Choose steps, and light their parts and joints."""
        self.select(self._session.choose_steps(steps) if steps else Selection())

    def choose_joint(self, joint: str) -> None:
        """Choose a fastener, its step and its parts."""
        self.select(self._session.choose_joint(joint))

    def choose_part(self, part: str) -> None:
        """Choose a part and the steps still to do on it."""
        self.select(self._session.choose_part(part))

    def choose_measure(self, measure: str) -> None:
        """Choose what the shapes tell of one thing, with its parts, joints and steps; or nothing."""
        for row in self._session.shapes():
            if row.id == measure:
                lit = Selection(
                    steps=row.steps, parts=row.parts, joints=row.joints, measures=(measure,)
                )
                self.select(lit)
                return
        self.select(Selection())

    def read_along(self) -> None:
        """Have the session look at what time, or another window, has changed."""
        self._session.read_along()

    def start(self, steps: tuple[str, ...]) -> None:
        """Start or resume these steps."""
        self._tell(self._session.start(steps))

    def pause(self, steps: tuple[str, ...]) -> None:
        """Pause these steps."""
        self._tell(self._session.pause(steps))

    def done(self, steps: tuple[str, ...]) -> None:
        """Tick these steps."""
        self._tell(self._session.done(steps))

    def longer(self, steps: tuple[str, ...]) -> None:
        """Say that these steps take a quarter of an hour longer."""
        self._tell(self._session.longer(steps))

    def note(self, step: str, text: str) -> None:
        """Write a note to a step."""
        self._tell(self._session.note(step, text))

    def look(self, step: str, *, dry: bool) -> None:
        """Say of a drying that it was found dry, or still damp."""
        self._tell(self._session.drying.look(step, dry=dry))

    def weigh(self, step: str, *, before_g: float, wet_g: float, now_g: float) -> None:
        """Record what a drying piece weighed before the bath, out of it, and weighs now."""
        weigh = self._session.drying.weigh
        self._tell(weigh(step, before_g=before_g, wet_g=wet_g, now_g=now_g))

    def tell(self, sentence: str) -> None:
        """Tell what the session said of a press that was made on it."""
        self._tell(sentence)

    def undo(self) -> None:
        """Take back the last key press."""
        self._tell(self._session.undo(), took_back=True)

    def redo(self) -> None:
        """Restore what was last taken back."""
        self._tell(self._session.redo())

    def _tell(self, sentence: str, *, took_back: bool = False) -> None:
        self._took_back = took_back
        self.said.emit(sentence)
        if not sentence.startswith(NOT_RECORDED):
            self.acted.emit()


def _zone_of(session: BenchSession) -> tzinfo:
    """Return the zone of the session's chart; UTC where the machine does not know it."""
    try:
        return ZoneInfo(session.chart().zone)
    except (ZoneInfoNotFoundError, ValueError):
        return UTC
