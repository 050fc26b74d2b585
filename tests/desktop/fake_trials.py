"""Tools tried in the invented build: the long rod teaches by what it reaches, the others nothing."""

from collections.abc import Callable
from dataclasses import dataclass, field
from threading import Event, current_thread, main_thread

from desktop.fake_session import FakeSession

from armorplan.app.learned_reach import LearnedReach
from armorplan.app.trial_sheet import SetBefore, TrialJoint, TrialTold, TrialTool
from armorplan.kernel.errors import ArmorplanError

ROD = TrialTool(id="rod", name="Long <rod>", reach_mm=250.0)
PRESS = TrialTool(id="press", name="Hand press", reach_mm=None)
BECOMES_MM = 290.0


def learned(joint: str, tool: str, *, did_reach: bool) -> LearnedReach:
    follows = did_reach and tool == ROD.id
    return LearnedReach(
        joint=joint,
        did_reach=did_reach,
        tool=tool,
        made=(),
        least_mm=BECOMES_MM,
        most_mm=330.0,
        reach_mm=250.0,
        becomes_mm=BECOMES_MM if follows else None,
        held=f"Joint '{joint}': a straight tool has to get in at least 290 mm.",
        follows="It did reach: its reach is at least 290 mm." if follows else "Nothing follows.",
    )


@dataclass(frozen=True)
class FakeTrial:
    """Fulfils ``Trial``."""

    step: str
    title: str
    joints: tuple[TrialJoint, ...]
    asked: list[tuple[str, str, SetBefore, bool]]

    def tools(self, joint: str) -> tuple[TrialTool, ...]:
        return () if joint.endswith("nothing") else (ROD, PRESS)

    def best(self, joint: str, before: SetBefore) -> str:  # noqa: ARG002
        assert current_thread() is not main_thread()
        return ROD.id if before is SetBefore.ORDER else PRESS.id

    def counts(self, joint: str) -> tuple[tuple[SetBefore, int], ...]:
        return ((SetBefore.ORDER, len(joint)), (SetBefore.ALL, 30), (SetBefore.NOTHING, 0))

    def told(self, joint: str, tool: str, before: SetBefore, *, did_reach: bool) -> TrialTold:
        assert current_thread() is not main_thread()
        self.asked.append((joint, tool, before, did_reach))
        if tool == PRESS.id:
            message = "No reach is known of 'press'. Write reach_mm for it in tools.toml."
            raise ArmorplanError(message)
        found = learned(joint, tool, did_reach=did_reach)
        follows = found.becomes_mm is not None
        return TrialTold(
            learned=found,
            sentences=(found.held, found.follows),
            change="Keeping it will write reach_mm = 290 in tools.toml; it is 250 now."
            if follows
            else "",
            flips=("With that 1 order flips:", "'boss' before both rows: only easier.")
            if follows
            else (),
        )


@dataclass
class FakeTrials:
    """Fulfils ``TrialBench``; keeps nothing but a list."""

    asked: list[tuple[str, str, SetBefore, bool]] = field(default_factory=list)
    kept: list[float | None] = field(default_factory=list)
    started: list[FakeSession] = field(default_factory=list)
    fault: str = ""
    may_start: Event = field(default_factory=Event)

    def __post_init__(self) -> None:
        self.may_start.set()

    def sheet(self, session: FakeSession, step: str) -> Callable[[], FakeTrial]:
        setting = [s for s in session.steps if s.joints]
        here = [s for s in setting if s.id == step]

        def work() -> FakeTrial:
            if not setting:
                message = "No step of this build sets a joint."
                raise ArmorplanError(message)
            joints = tuple(
                TrialJoint(id=joint, name=f"{one.title} – {joint}")
                for one in here or setting
                for joint in one.joints
            )
            step_id, title = (here[0].id, here[0].title) if here else ("", "")
            return FakeTrial(step_id, title, joints, self.asked)

        return work

    def keep(self, found: LearnedReach) -> Callable[[], str]:
        def work() -> str:
            assert current_thread() is not main_thread()
            if self.fault:
                raise ArmorplanError(self.fault)
            self.kept.append(found.becomes_mm)
            return "Kept for Long rod: reach_mm = 290; it was 250."

        return work

    def go_on(self, session: FakeSession) -> Callable[[], Callable[[], FakeSession]]:
        def start() -> FakeSession:
            assert current_thread() is main_thread()
            again = FakeSession(steps=session.steps, clock=session.clock, build_id="watch-2")
            again._bench = session._bench
            self.started.append(again)
            return again

        def work() -> Callable[[], FakeSession]:
            assert current_thread() is not main_thread()
            assert self.may_start.wait(10)
            return start

        return work
