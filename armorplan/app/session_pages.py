"""What a session shows of its build at its present moment. Nothing here changes anything."""

from collections.abc import Callable
from functools import cached_property, partial

from armorplan.app.asking_between import AskingBetween
from armorplan.app.bench_card import BenchCard, bench_card
from armorplan.app.build_needs import BuildNeeds
from armorplan.app.chart_rows import chart_of
from armorplan.app.closes_off import ClosesOff
from armorplan.app.commits import Commits
from armorplan.app.derived import Derived
from armorplan.app.diagram_rows import DiagramRows
from armorplan.app.drying_choices import Dryings, dryings_of
from armorplan.app.effort_report import effort_report, effort_words
from armorplan.app.fit_asking import FitAsking
from armorplan.app.graph_rows import Graphs
from armorplan.app.lighting import light_joint, light_part, light_steps
from armorplan.app.moment import BenchMoment
from armorplan.app.needs_rows import NeedsPage
from armorplan.app.reach_rows import ReachTrack
from armorplan.app.reach_track import reach_track
from armorplan.app.reason_rows import Reasons
from armorplan.app.rows import BenchState, Chart, Diagram, GraphRows, Selection, Why
from armorplan.app.shape_rows import ShapeRow, shape_rows
from armorplan.app.spoken_of import SpokenOf
from armorplan.kernel.clock import Clock
from armorplan.kernel.findings import Finding
from armorplan.ledger.builds import BuildRecord


class SessionPages:
    """The pages of one build; ``session.Session`` adds what is done at the bench."""

    _moment: BenchMoment

    def __init__(self, build: BuildRecord, derived: Derived, clock: Clock) -> None:
        self._build = build
        self._bare = derived
        """As it was opened, without the ways back chosen at its bench."""
        self._derived = derived
        self._clock = clock
        self._graphs = Graphs(derived)
        self._needs = BuildNeeds()
        self._commits = Commits(derived)

    @cached_property
    def _diagram(self) -> DiagramRows:
        return DiagramRows(self._bare)

    @cached_property
    def _spoken(self) -> SpokenOf:
        return SpokenOf(self._derived)

    @cached_property
    def _shapes(self) -> tuple[ShapeRow, ...]:
        return shape_rows(self._derived, self._spoken)

    @property
    def build_id(self) -> str:
        """The build's id."""
        return self._build.id

    @property
    def build(self) -> BuildRecord:
        """The build at the bench."""
        return self._build

    @property
    def title(self) -> str:
        """The build's name."""
        return self._build.name

    @property
    def derived(self) -> Derived:
        """All that follows from the build's pattern."""
        return self._derived

    def moment(self) -> BenchMoment:
        """Return how the build stands."""
        return self._moment

    @property
    def done_order(self) -> tuple[str, ...]:
        """What is ticked, in the order it was done."""
        return self._moment.ledger.done_order

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What was found in the pattern."""
        return self._derived.findings

    def effort_told(self) -> str:
        """Return in words what setting the joints takes, and the least; empty where none is set."""
        effort, order = self._derived.effort, self._derived.order
        return effort_words(effort_report(effort, order)) if effort and order else ""

    def diagram(self) -> Diagram:
        """Return the parts from their real outlines."""
        states = self._moment.states.states
        # What a way back leaves out has no state of its own.
        return self._diagram.at(lambda step: states.get(step, BenchState.WAITING))

    def shapes(self) -> tuple[ShapeRow, ...]:
        """Return what rows, covers, bends, posts and lames tell, by topic."""
        return self._shapes

    def tracing_reach(self) -> Callable[[], ReachTrack]:
        """Return what reckons reach along the order; it may be called in another thread."""
        return partial(reach_track, self._derived)

    def asking_between(self) -> AskingBetween:
        """Return what tells which of two comes first; it may be asked in another thread."""
        return AskingBetween(derived=self._derived)

    def asking_fit(self) -> FitAsking:
        """Return what reckons the dry fits; it may be asked in another thread."""
        return FitAsking(derived=self._derived)

    def assembly_graph(self) -> GraphRows:
        """Return parts and what holds them together."""
        return self._graphs.assembly(self._moment.states.of)

    def step_graph(self) -> GraphRows:
        """Return steps and what comes before what."""
        return self._graphs.steps(self._moment.states.of)

    def chart(self) -> Chart:
        """Return the coming days."""
        moment = self._moment
        return chart_of(self._derived, moment.states, moment.spans, self._clock.now())

    def dryings(self) -> Dryings:
        """Return what dries in the build, since when and in which air."""
        return dryings_of(self._derived, self._moment, self._clock.now())

    def needs(self, tray: str = "") -> NeedsPage:
        """Return what the build uses up, baths for one of the shop's trays."""
        return self._needs.page(self._derived, tray)

    def needs_csv(self, tray: str = "") -> str:
        """Return the same as a table of figures."""
        return self._needs.csv(self._derived, tray)

    def why(self, step: str) -> Why:
        """Return why a step stands where it stands; KeyError where there is no such step."""
        if not self._derived.work.has(step):
            message = f"build {self._build.id} has no step {step!r}"
            raise KeyError(message)
        return Reasons(self._derived, self._moment.states, self._moment.ledger).why(step)

    def bench_card(self, step: str) -> BenchCard:
        """Return what the bench view says of a step; KeyError where there is no such step."""
        return bench_card(self._derived, self._moment, step)

    def asking_commit(self, step: str) -> Callable[[], ClosesOff]:
        """Return what tells what doing a step now closes off; it may be called in another thread."""
        if self._commits.derived is not self._derived:
            self._commits = Commits(self._derived)
        return self._commits.asking(step, self._moment.ledger.done_order)

    def choose_steps(self, steps: tuple[str, ...]) -> Selection:
        """Light the parts and joints of steps."""
        return light_steps(self._derived, steps)

    def choose_joint(self, joint: str) -> Selection:
        """Light a fastener's step and layers."""
        return light_joint(self._derived, joint)

    def choose_part(self, part: str) -> Selection:
        """Light a part, its joints, its next step."""
        return light_part(self._derived, part, frozenset(self._moment.ledger.done_order))

    def choose_spoken_of(self, ids: tuple[str, ...]) -> Selection:
        """Light what a finding or a measure speaks of, on every side it is made on."""
        return self._spoken.light(ids)
