"""Ways back from a closed lantern boss: invented, the same on every run."""

import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace

from armorplan.app.way_back_protocol import ChosenWay
from armorplan.app.way_back_rows import Stuck, WayBack, WayBackMove, WaysBack
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind

STUCK = Stuck(
    step="watch/piece_0/none/rivet/upper_3",
    title="Rivet 4 of the upper row",
    why="The boss <covers> its head, and no tool gets there.",
)
DRILL = WayBack(
    id="drill",
    title="Drill out the boss",
    means="drilled out",
    moves=(
        WayBackMove(
            id="m1",
            opens=True,
            title="Drill out the rivet of the boss",
            detail="Drill 3 mm, from the cap's side.",
            minutes=6,
            risk_pct=6,
            tool="hand drill",
            cautions=("Wear eye protection; clamp the piece.",),
        ),
        WayBackMove(
            id="m2", opens=False, title="Rivet 4 of the upper row", minutes=3, step=STUCK.step
        ),
        WayBackMove(
            id="m3",
            opens=False,
            title="Rivet the boss with the next size up",
            minutes=4,
            hardware=(("rivet 11 mm", 1),),
            leaves="The boss's hole is 0.5 mm wider.",
        ),
    ),
    minutes=13,
    wait_min=0,
    risk_pct=6,
    risk="little risk",
    hardware=(("rivet 11 mm", 1),),
    leaves=("The boss's hole is 0.5 mm wider.",),
    price=16,
    is_best=True,
    finish="",
)
LEAVE = WayBack(
    id="leave",
    title="Live with it",
    means="live with it",
    moves=(
        WayBackMove(
            id="m1",
            opens=False,
            title="Leave the rivet out",
            leaves="One rivet of the row is missing.",
            in_spite_of=("A row holds by all of its rivets.",),
        ),
    ),
    minutes=0,
    wait_min=0,
    risk_pct=0,
    risk="no risk",
    leaves=("One rivet of the row is missing.",),
    price=40,
    proved=False,
    gap_pct=5,
)
REMAKE = WayBack(
    id="remake",
    title="Cut the boss anew",
    means="cut anew",
    moves=(WayBackMove(id="m1", opens=True, title="Cut the boss anew", minutes=55, wait_min=900),),
    minutes=55,
    wait_min=900,
    risk_pct=25,
    risk="a high risk",
    is_risky=True,
    price=120,
)
FOUND = WaysBack(stuck=(STUCK,), ways=(DRILL, LEAVE, REMAKE), told="3 ways lead back.")


@dataclass
class FakeDates:
    """Says that each way takes 20 min more, once it may."""

    found: WaysBack
    may_tell: threading.Event | None = None

    def told(self, should_stop: Callable[[], bool]) -> Iterator[WaysBack]:
        if self.may_tell is not None:
            self.may_tell.wait(10)
        ways = tuple(replace(way, finish="20 min later") for way in self.found.ways)
        yield replace(self.found, ways=(ways[0], *self.found.ways[1:]))
        if not should_stop():
            yield replace(self.found, ways=ways)


@dataclass
class FakeWayBack:
    """Fulfils ``BenchWayBack``; ``hear`` is called after each change."""

    hear: Callable[[], None] = lambda: None
    ways: WaysBack = FOUND
    stuck_now: tuple[Stuck, ...] = ()
    told: list[Mistake] = field(default_factory=list)
    findings: list[tuple[str, str]] = field(default_factory=list)
    picked: list[WayBack] = field(default_factory=list)

    def stuck(self) -> tuple[Stuck, ...]:
        return self.stuck_now

    def mistake_kinds(self, steps=(), parts=()) -> tuple[MistakeKind, ...]:  # noqa: ARG002 - of the protocol
        return (MistakeKind.CLOSED, MistakeKind.WRONG_HOLE) if steps else tuple(MistakeKind)

    def mistakes(self) -> tuple[Mistake, ...]:
        return tuple(self.told)

    def tell(self, mistake: Mistake) -> str:
        self.told.append(mistake)
        self.stuck_now = self.ways.stuck
        self.hear()
        return f"Noted: {mistake.kind.value}."

    def found(self, step: str, text: str) -> str:
        self.findings.append((step, text))
        return "Kept with the fit."

    def asking(self, solver=None) -> Callable[[], WaysBack]:  # noqa: ARG002 - of the protocol
        return lambda: self.ways

    def dating(self, found: WaysBack) -> FakeDates:
        return FakeDates(found)

    def choose(self, way: WayBack) -> str:
        self.picked.append(way)
        self.hear()
        self.told.clear()
        return f"{way.title}: {len(way.moves)} steps stand in the checklist."

    def chosen(self) -> tuple[ChosenWay, ...]:
        return tuple(
            ChosenWay(
                id=way.id,
                title=way.title,
                why="",
                steps=tuple(move.step for move in way.moves if move.step),
                total=len(way.moves),
            )
            for way in self.picked
        )

    def forget(self, way: str) -> str:
        self.picked = [one for one in self.picked if one.id != way]
        self.hear()
        return "Dropped."
