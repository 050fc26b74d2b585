"""A step at which a tool was tried: its joints, the tools that serve, and what the trial teaches."""

from collections.abc import Sequence
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
from armorplan.kernel.errors import ArmorplanError
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
    """What the window asks of a step at which a tool was tried."""

    @property
    def step(self) -> str:
        """The id of the step."""
        ...

    @property
    def title(self) -> str:
        """The step's title."""
        ...

    @property
    def joints(self) -> tuple[str, ...]:
        """The joints it sets, by their plain ids."""
        ...

    def tools(self, joint: str) -> tuple[TrialTool, ...]:
        """Return the tools that may have been used for a joint."""
        ...

    def counts(self, joint: str) -> tuple[tuple[SetBefore, int], ...]:
        """Return how many other joints each of the states has set, the likeliest state first."""
        ...

    def told(self, joint: str, tool: str, before: SetBefore, *, did_reach: bool) -> TrialTold:
        """Return what the trial teaches; ArmorplanError where it cannot be told."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialSheet:
    """Fulfils ``Trial`` for a step of a build, with the tools of today.

    Attributes:
        derived: the build, its shelf with the tools of today.
        bench: its tools and numbers.
        ticked: plain ids of the joints that were set before it by the ticks on its side.
        own_catalogues_dir: where the maker's own tools are kept.
    """

    derived: Derived
    bench: Bench
    step: str
    ticked: frozenset[str]
    own_catalogues_dir: Path

    @property
    def title(self) -> str:
        """The step's title."""
        return self.derived.work.step(self.step).title

    @property
    def joints(self) -> tuple[str, ...]:
        """The joints it sets, by their plain ids."""
        return plain_joints(self.derived, (self.derived.work.step(self.step),))

    def tools(self, joint: str) -> tuple[TrialTool, ...]:
        """Return the tools that close a joint, and those of its kind whose reach is not known."""
        kind = self.derived.pattern.joint(joint).kind.value
        serving = [tool for tool in self.derived.shelf.tools if kind in tool.serves]
        known = self.bench.tools.get(joint, ()) or serving
        found = [tool for tool in serving if tool.reach_mm is None or tool in known]
        found.sort(key=lambda tool: (tool.reach_mm is None, tool.name))
        return tuple(TrialTool(id=t.id, name=t.name, reach_mm=t.reach_mm) for t in found)

    def counts(self, joint: str) -> tuple[tuple[SetBefore, int], ...]:
        """Return how many other joints each state has set, the likeliest first; none of them twice."""
        by_state = {one: len(self._made(one) - {joint}) for one in SetBefore}
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
        tried = Tried(joint=joint, did_reach=did_reach, tool=tool, made=self._made(before))
        learned = learned_reach(self.derived, tried)
        change = ""
        if learned.becomes_mm is not None:
            writes = change_words(learned, self.own_catalogues_dir)
            change = f"Keeping it will {writes}; it is {learned.reach_mm:g} now."
        return TrialTold(
            learned=learned,
            sentences=tuple(filter(None, (learned.held, learned.follows, learned.against))),
            change=change,
            flips=turned_words(turned_by(self.derived, learned), self.derived),
        )

    def _made(self, before: SetBefore) -> frozenset[str]:
        if before is SetBefore.TICKED:
            return self.ticked
        side = self.derived.work.step(self.step).side
        if before is SetBefore.ALL:
            return set_before(self.derived, len(self.derived.order), side)
        place = self.derived.place.get(self.step)
        if before is SetBefore.NOTHING or place is None:
            return frozenset()
        return set_before(self.derived, place, side)


def trial_at(
    derived: Derived, step_id: str, done: Sequence[str], today: Shelf, own_catalogues_dir: Path
) -> TrialSheet:
    """Return the sheet of a step.

    Args:
        derived: the build.
        step_id: the step in hand.
        done: the steps that are ticked, in the order they were done.
        today: the shelf as it is now, whose tools are reckoned with.
        own_catalogues_dir: where the maker's own tools are kept.

    Raises:
        ArmorplanError: the step sets no joint.
    """
    step = derived.work.step(step_id)
    if not plain_joints(derived, (step,)):
        message = f"'{step.title}' sets no joint. Choose a step that sets a fastener first."
        raise ArmorplanError(message)
    before = done[: done.index(step_id)] if step_id in done else done
    earlier = (derived.work.step(one) for one in before if derived.work.has(one))
    here = (one for one in earlier if one.side in (step.side, Side.SINGLE))
    shelf = with_tools(derived.shelf, today)
    return TrialSheet(
        derived=replace(derived, shelf=shelf),
        bench=bench_of(derived.pattern, shelf),
        step=step_id,
        ticked=frozenset(plain_joints(derived, here)),
        own_catalogues_dir=own_catalogues_dir,
    )
