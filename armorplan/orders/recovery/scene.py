"""What a way back is looked for in: a build, its binding relations, what stands, what reaches where."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Margin
from armorplan.orders.recovery.model import Bar, Rates
from armorplan.relations.model import Before, BeforeAll, Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.reach_sides import met_on, sides_in, views_of
from armorplan.rules.reaching import BY_REACH
from armorplan.steps.model import SETS_JOINT, Step, StepKind
from armorplan.workshop.salvages import Salvage

IMPLIED = frozenset(
    (
        "cut-before-use",
        "stack-before-joint",
        "slots-before-threading",
        "fold-before-held",
        "drying-starts-at-once",
        "paper-before-leather",
        "mock-up-before-lay-out",
        "lay-out-before-cut",
    )
)
"""Rules whose first step has surely been done where the second stands, or is of no use any more:
no rivet without its hole, no mock-up of leather that is cut."""
HIDES_HEAD = frozenset(("hidden-before-cover",))
SHUTS_IN = frozenset(("hardware-before-shut", "thread-before-closed"))
HARDER = BY_REACH | {"open-before-cover"}
"""Rules that say of a joint only that it is harder to set later."""


@dataclass(frozen=True, kw_only=True)
class RecoveryScene:
    """A build as ways back are looked for in it.

    Attributes:
        facts: its assembly, steps and shelf.
        relations: all that holds between its steps.
        place: where a step stands in the order.
        salvages: how spoilt leather can be saved.
        flat_min: by step that sets a joint its minutes on the flat bench, where the order gives it others.
        rates: how unlike things are weighed.
        bars: what bars what, by the relations that bind and those that tell of harder joints.
        told: by bar, its relation.
    """

    facts: Facts
    relations: tuple[Relation, ...]
    place: Mapping[str, int]
    salvages: tuple[Salvage, ...] = ()
    flat_min: Mapping[str, int] = field(default_factory=dict)
    rates: Rates = field(default_factory=Rates)
    bars: tuple[Bar, ...] = field(init=False, repr=False, compare=False)
    told: Mapping[str, Relation] = field(init=False, repr=False, compare=False)
    _by_first: dict[str, list[Bar]] = field(init=False, repr=False, compare=False)
    _implied: dict[str, list[str]] = field(init=False, repr=False, compare=False)
    _asked: dict[str, list[str]] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Index what bars what once."""
        bars, told = list[Bar](), dict[str, Relation]()
        by_first, implied = dict[str, list[Bar]](), dict[str, list[str]]()
        asked = dict[str, list[str]]()
        for at, relation in enumerate(self.relations):
            bar = self._bar(at, relation)
            if bar is None:
                continue
            bars.append(bar)
            told[bar.id] = relation
            by_first.setdefault(bar.first, []).append(bar)
            if isinstance(relation, Before) and relation.reason.binds:
                asked.setdefault(relation.then, []).append(relation.first)
                if relation.reason.rule in IMPLIED:
                    implied.setdefault(relation.then, []).append(relation.first)
        for name, value in (
            ("bars", tuple(bars)),
            ("told", told),
            ("_by_first", by_first),
            ("_implied", implied),
            ("_asked", asked),
        ):
            object.__setattr__(self, name, value)

    def _bar(self, at: int, relation: Relation) -> Bar | None:
        if isinstance(relation, Before):
            first, of = relation.first, frozenset((relation.then,))
        elif isinstance(relation, BeforeAll):
            first, of = relation.first, relation.of
        else:
            return None
        reason = relation.reason
        harder = reason.rule in HARDER and reason.force is Force.EASIER and not (reason.overruled)
        if not (reason.binds or harder):
            return None
        return Bar(
            id=f"bar-{at}",
            first=first,
            of=of,
            bars_opening=reason.binds and self._bars_opening(first, reason.rule),
            why=reason.text,
        )

    def _bars_opening(self, first: str, rule: str) -> bool:
        """Tell whether what is barred cannot be taken out either.

        A hidden head cannot; nor what is shut in a fold. What only no tool reaches from inside can,
        if it is drilled from outside; of a screw both ends have to be got at.
        """
        if rule in HIDES_HEAD or rule in SHUTS_IN:
            return True
        return rule in BY_REACH and self.facts.work.step(first).kind is StepKind.SCREW

    def step(self, step_id: str) -> Step:
        """Return a step of the build; KeyError where there is none."""
        return self.facts.work.step(step_id)

    def lead(self, step: Step) -> Step:
        """Return what a drying follows; any other step itself."""
        return step if step.attended or not step.after else self.step(step.after)

    def bars_of(self, first: str) -> tuple[Bar, ...]:
        """Return the bars of a step."""
        return tuple(self._by_first.get(first, ()))

    def binds(self, bar: Bar) -> bool:
        """Tell whether a bar binds: it does not only make a step harder."""
        relation = self.told.get(bar.id)
        return relation is None or relation.reason.binds

    def rule_of(self, bar: Bar) -> str:
        """Return the code of the rule that a bar rests on; empty where none does."""
        relation = self.told.get(bar.id)
        return relation.reason.rule if relation else ""

    def force_of(self, bar: Bar) -> Force:
        """Return how strongly a bar holds."""
        relation = self.told.get(bar.id)
        return relation.reason.force if relation else Force.SPOIL

    def standing(
        self, done: Iterable[str], *, left: Collection[str] | None = None, whole: bool = False
    ) -> frozenset[str]:
        """Return what stands where steps are done: they, and what they cannot be without.

        Args:
            done: steps that are known to stand.
            left: steps that surely do not stand; nor does what follows from them by itself. Where
                this is given, what should come before the steps is taken as done, too.
            whole: also what should come before the last of some that all stand.
        """
        first_of = self._implied if left is None else self._asked
        stands = set(done)
        never = self._following(left or ()) - stands
        todo = [*sorted(stands), *sorted(left or ())]
        while todo:
            for first in first_of.get(todo.pop(), ()):
                if first not in stands and first not in never:
                    stands.add(first)
                    todo.append(first)
            if not todo and whole:
                todo = [one for one in self._shut_firsts(stands) if one not in never]
                stands.update(todo)
        return frozenset(stands)

    def _shut_firsts(self, stands: Collection[str]) -> list[str]:
        """Return the steps that do not stand though all before the last of which they come do."""
        found = {
            bar.first
            for bar in self.bars
            if bar.first not in stands and self.binds(bar) and bar.of <= frozenset(stands)
        }
        return sorted(found)

    def _following(self, left: Collection[str]) -> set[str]:
        never, todo = set(left), list(left)
        while todo:
            step = todo.pop()
            for then, firsts in self._implied.items():
                if step in firsts and then not in never:
                    never.add(then)
                    todo.append(then)
        return never

    def margin(self, joint_id: str, stands: Collection[str]) -> Margin | None:
        """Return how far a tool gets at a sided joint with those set that stand; ``None``: not known."""
        assembly, work = self.facts.assembly, self.facts.work
        joint, sided = assembly.joint(joint_id), sides_in(assembly)
        view = next((v for v in views_of(self.facts) if joint.side in v.sides), None)
        if view is None:
            return None
        made = set()
        for plain in sided:
            met = met_on(sided, plain, joint.side)
            setting = [work.setting(each.id) for each in met]
            if met and plain != joint.joint.id and all(s and s.id in stands for s in setting):
                made.add(plain)
        return margin(view.reach.net, joint.joint.id, frozenset(made), view.reach.bench)

    def joint_steps_of(self, part: str) -> tuple[Step, ...]:
        """Return the steps that set the joints through a sided part."""
        found = (self.facts.work.setting(j.id) for j in self.facts.assembly.joints_of(part))
        return tuple(step for step in found if step)

    def own_work(self, part: str, stands: Collection[str]) -> Iterator[Step]:
        """Yield what was done to a part before it was joined, in order: what making it anew repeats."""
        touching = (
            s
            for s in self.facts.work.touching(part)
            if s.kind not in _NOT_REPEATED and self.lead(s).kind is not StepKind.MEND
        )
        for step in sorted(touching, key=lambda s: (self.place.get(s.id, 0), s.id)):
            if step.id in stands:
                yield step


_NOT_REPEATED = frozenset(
    (
        *SETS_JOINT,
        StepKind.MEASURE,
        StepKind.MOCK_UP,
        StepKind.LAY_OUT,
        StepKind.MOUNT,
        StepKind.THREAD,
        StepKind.DRY_FIT,
        StepKind.CHECK,
        StepKind.MARK,
        StepKind.OWN,
        StepKind.FIT,
        StepKind.INSPECT,
        StepKind.PACK,
        StepKind.MEND,
    )
)
"""Paper stays as it is; joints, trials and what is put on are opened and done again by themselves.
What a way back did, it did to the part that goes."""
