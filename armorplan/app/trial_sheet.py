"""A joint at which a tool was tried, of a step or of the whole build: tools, and what it teaches."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from pathlib import Path
from typing import Protocol

from armorplan.app.derived import Derived
from armorplan.app.kept_reach import change_words
from armorplan.app.learned_reach import LearnedReach, learned_reach
from armorplan.app.set_before import plain_joints, set_before
from armorplan.app.todays_tools import with_tools
from armorplan.app.tried_reach import Tried
from armorplan.app.turned_orders import turned_by, turned_words
from armorplan.assembly.model import Side
from armorplan.geometry.reach.bench import Bench, bench_of
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.margins import margin
from armorplan.kernel.errors import ArmorplanError
from armorplan.steps.model import Step
from armorplan.workshop.shelf import Shelf


class SetBefore(StrEnum):
    """What is taken to have been set before the joint at which a tool was tried."""

    TICKED = "what is ticked"
    ORDER = "what the order sets before it"
    ALL = "all others"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialTool:
    """A tool that may have been used; ``reach_mm`` is ``None`` where none is known."""

    id: str
    name: str
    reach_mm: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialJoint:
    """A joint at which a tool may have been tried: its id with its side, and its name to be shown."""

    id: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialTold:
    """What a trial teaches, in whole sentences.

    Attributes:
        learned: what follows from it.
        sentences: what the shapes hold, what follows, and what an earlier trial said otherwise.
        change: what keeping it would change, and from what; empty where nothing follows.
        flips: which orders would hold otherwise then.
    """

    learned: LearnedReach
    sentences: tuple[str, ...]
    change: str
    flips: tuple[str, ...]


class Trial(Protocol):
    """What the window asks of the joints at which a tool may have been tried."""

    @property
    def step(self) -> str:
        """The id of the step that sets them; empty for all joints of the build."""
        ...

    @property
    def title(self) -> str:
        """The step's title; empty for all joints of the build."""
        ...

    @property
    def joints(self) -> tuple[TrialJoint, ...]:
        """The joints, in the order in which they are set."""
        ...

    def tools(self, joint: str) -> tuple[TrialTool, ...]:
        """Return the tools that may have been used for a joint."""
        ...

    def best(self, joint: str, before: SetBefore) -> str:
        """Return the id of the tool that by the shapes gets to a joint best; empty where none does.

        It may take a while: ask it in another thread.
        """
        ...

    def counts(self, joint: str) -> tuple[tuple[SetBefore, int], ...]:
        """Return how many other joints each of the states has set, the likeliest state first."""
        ...

    def told(self, joint: str, tool: str, before: SetBefore, *, did_reach: bool) -> TrialTold:
        """Return what the trial teaches; ArmorplanError where it cannot be told."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialSheet:
    """Fulfils ``Trial`` for a build, with the tools of today; joints by their ids with the side.

    Attributes:
        derived: the build, its shelf with the tools of today.
        bench: its tools and numbers.
        step: the step in hand; empty for the whole build.
        joints: what it sets.
        done: the steps that are ticked, in the order they were done.
        own_catalogues_dir: where the maker's own tools are kept.
    """

    derived: Derived
    bench: Bench
    step: str
    joints: tuple[TrialJoint, ...]
    done: tuple[str, ...]
    own_catalogues_dir: Path

    @property
    def title(self) -> str:
        """The step's title; empty for the whole build."""
        return self.derived.work.step(self.step).title if self.step else ""

    def tools(self, joint: str) -> tuple[TrialTool, ...]:
        """Return the tools that close a joint, and those of its kind whose reach is not known."""
        plain = self._plain(joint)
        kind = self.derived.pattern.joint(plain).kind.value
        serving = [tool for tool in self.derived.shelf.tools if kind in tool.serves]
        known = self.bench.tools.get(plain, ()) or serving
        found = [tool for tool in serving if tool.reach_mm is None or tool in known]
        found.sort(key=lambda tool: (tool.reach_mm is None, tool.name))
        return tuple(TrialTool(id=t.id, name=t.name, reach_mm=t.reach_mm) for t in found)

    def best(self, joint: str, before: SetBefore) -> str:
        """Return the tool that by the shapes gets to a joint best; empty where none does."""
        plain = self._plain(joint)
        reach = reach_of(self.derived.pattern, self.derived.shelf)
        if plain not in reach.net.access:
            return ""
        made = self._made(joint, before) - {plain}
        serving = reach.bench.tools.get(plain, ())
        named = margin(reach.drawn, plain, made, reach.bench).tool
        return next((tool.id for tool in serving if tool.id == named or not named), "")

    def counts(self, joint: str) -> tuple[tuple[SetBefore, int], ...]:
        """Return how many other joints each state has set, the likeliest first; none of them twice."""
        plain = self._plain(joint)
        by_state = {one: len(self._made(joint, one) - {plain}) for one in SetBefore}
        told = {SetBefore.ORDER: by_state.pop(SetBefore.ORDER)}
        told |= {one: count for one, count in by_state.items() if count}
        if told[SetBefore.ORDER]:
            told[SetBefore.NOTHING] = 0
        first = SetBefore.TICKED if SetBefore.TICKED in told else SetBefore.ORDER
        return tuple(sorted(told.items(), key=lambda held: held[0] is not first))

    def told(self, joint: str, tool: str, before: SetBefore, *, did_reach: bool) -> TrialTold:
        """Return what the trial teaches, what keeping it changes, and which orders flip.

        Raises:
            ArmorplanError: the joint sits in no shell, or the tool does not serve it.
        """
        plain, made = self._plain(joint), self._made(joint, before)
        tried = Tried(joint=plain, did_reach=did_reach, tool=tool, made=made)
        learned = learned_reach(self.derived, tried)
        change = ""
        if learned.becomes_mm is not None:
            writes = change_words(learned, self.own_catalogues_dir)
            change = f"Keeping it will {writes}; it is {learned.reach_mm:g} now."
        named = f"'{self._setting(joint).title}'"
        held = learned.held.replace(f"Joint '{plain}'", named)
        return TrialTold(
            learned=learned,
            sentences=tuple(filter(None, (held, learned.follows, learned.against))),
            change=change,
            flips=turned_words(turned_by(self.derived, learned), self.derived),
        )

    def _plain(self, joint: str) -> str:
        return self.derived.assembly.joint(joint).joint.id

    def _setting(self, joint: str) -> Step:
        found = self.derived.work.setting(joint)
        if found is None:
            message = f"No step sets joint '{joint}'."
            raise ArmorplanError(message)
        return found

    def _made(self, joint: str, before: SetBefore) -> frozenset[str]:
        step = self._setting(joint)
        if before is SetBefore.TICKED:
            return self._ticked(step)
        if before is SetBefore.ALL:
            return set_before(self.derived, len(self.derived.order), step.side)
        place = self.derived.place.get(step.id)
        if before is SetBefore.NOTHING or place is None:
            return frozenset()
        return set_before(self.derived, place, step.side)

    def _ticked(self, step: Step) -> frozenset[str]:
        """Return the plain ids of what the ticks on the side of a step have set before it."""
        work, done = self.derived.work, self.done
        before = done[: done.index(step.id)] if step.id in done else done
        earlier = (work.step(one) for one in before if work.has(one))
        here = (one for one in earlier if one.side in (step.side, Side.SINGLE))
        return frozenset(plain_joints(self.derived, here))


def trial_at(
    derived: Derived, step_id: str, done: Sequence[str], today: Shelf, own_catalogues_dir: Path
) -> TrialSheet:
    """Return the sheet of a step, or of the whole build where the step sets no joint.

    Args:
        derived: the build.
        step_id: the step in hand; may be empty.
        done: the steps that are ticked, in the order they were done.
        today: the shelf as it is now, whose tools are reckoned with.
        own_catalogues_dir: where the maker's own tools are kept.

    Raises:
        ArmorplanError: no step of the build sets a joint.
    """
    work = derived.work
    in_hand = [work.step(step_id)] if work.has(step_id) and work.sets(work.step(step_id)) else []
    order = [work.step(one) for one in derived.order] or list(work.steps)
    joints = tuple(_joints_of(derived, in_hand or order))
    if not joints:
        message = "No step of this build sets a joint: there is nothing a tool has to reach."
        raise ArmorplanError(message)
    shelf = with_tools(derived.shelf, today)
    return TrialSheet(
        derived=replace(derived, shelf=shelf),
        bench=bench_of(derived.pattern, shelf),
        step=step_id if in_hand else "",
        joints=joints,
        done=tuple(done),
        own_catalogues_dir=own_catalogues_dir,
    )


def _joints_of(derived: Derived, steps: Iterable[Step]) -> Iterator[TrialJoint]:
    """Yield what steps set, by the title of the step; with the id where it sets several."""
    for step in steps:
        joints = derived.work.sets(step)
        for joint in joints:
            name = step.title if len(joints) == 1 else f"{step.title} – {joint}"
            yield TrialJoint(id=joint, name=name)
