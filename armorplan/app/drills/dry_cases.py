"""What dries in a build, as it is asked about: the ladder of what may be done with it, rung by rung."""

from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.drying.body import Body
from armorplan.drying.spans import Stage
from armorplan.drying.stages import LATEST, stage_minutes
from armorplan.relations.model import Before
from armorplan.steps.model import Step, StepKind
from armorplan.steps.windows import StepWindow, window_of
from armorplan.workshop.shelf import Carrier, TreatmentEntry

NOTHING = "nothing"
"""The lowest rung: it has to be left alone."""
_RUNGS = {
    Stage.OPENS: ("shape", "It may be shaped."),
    Stage.CLOSES: ("too-dry", "It is too late to shape it: it is too dry."),
    Stage.TOUCH: ("touch", "It may be touched, but not handled."),
    Stage.HANDLE: ("handle", "It may be handled."),
}
_COAT = ("coat", "It may be coated again, but not handled.")
_LATE_COAT = ("late-coat", "It is too late to coat it as it is.")
_NOTHING_YET = "Nothing may be done with it yet."
_FALLBACK_RULE = "dry-before-handling"
_TELLING_RULES = frozenset(("damp-window", "dry-between-coats", _FALLBACK_RULE))
"""Whose reason is the drying itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rung:
    """What may be done from a stage on.

    Attributes:
        stage: ``None``: of the lowest, which holds from the beginning.
        body: what makes this stage: the thinnest where a window ends, else the thickest.
    """

    id: str
    title: str
    stage: Stage | None = None
    body: Body | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DryCase:
    """One thing of a build that dries.

    Attributes:
        step: the drying; of a casing that itself, which dries until it is shaped.
        wet: the step that made it wet.
        rungs: ascending.
        goal: the rung at which what waits for it may go on.
        relation: what waits for it; ``None`` where nothing does.
    """

    step: Step
    wet: Step
    entry: TreatmentEntry
    body: Body
    rungs: tuple[Rung, ...]
    goal: str
    relation: Before | None

    def is_ready(self, rung: str) -> bool:
        """Tell whether what waits for it may go on from a rung: not too early, and not too late."""
        late = (_LATE_COAT[0], _RUNGS[Stage.CLOSES][0])
        return self.place(rung) >= self.place(self.goal) and rung not in late

    @property
    def rule(self) -> str:
        """The code of the rule by which something waits for it."""
        return self.relation.reason.rule if self.relation else _FALLBACK_RULE

    def place(self, rung: str) -> int:
        """Return how high a rung is."""
        return next(at for at, one in enumerate(self.rungs) if one.id == rung)

    def catalogue_min(self, stage: Stage) -> int:
        """Return the minutes of the catalogue to a stage it knows."""
        return stage_minutes(self.entry)[stage]


def cases_of(derived: Derived, *, piece: str = "", focus: str = "") -> tuple[DryCase, ...]:
    """Return what dries by a law of the air, in the order of the build.

    Where several rules make something wait for one drying, that of ``focus`` is its reason. Oil and
    wax are left out: they harden by no published law (``drying.pace``).
    """
    finding = _Finding(derived, focus)
    steps = (derived.work.step(name) for name in derived.order)
    found = (finding.case(step) for step in steps if piece in ("", step.piece))
    return tuple(case for case in found if case is not None)


class _Finding:
    def __init__(self, derived: Derived, focus: str) -> None:
        self._derived = derived
        self._focus = focus

    def case(self, step: Step) -> DryCase | None:
        """Return a step as something to look at; ``None`` where no law of the air dries it."""
        drying = step.drying
        entry = self._derived.shelf.treatment(drying.treatment) if drying else None
        if drying is None or entry is None or entry.carrier is Carrier.OIL:
            return None
        if step.kind is StepKind.CASE and step.serves:
            stages, window = self._of_casing(step)
            wet = step
        elif step.kind is StepKind.DRY and step.after:
            wet = self._derived.work.step(step.after)
            stages, window = self._of_drying(wet, drying.stage, entry)
        else:
            return None
        if not stages:
            return None
        rungs = _rungs(stages, drying.body, window, is_coat=drying.stage is Stage.TOUCH)
        return DryCase(
            step=step,
            wet=wet,
            entry=entry,
            body=drying.body,
            rungs=rungs,
            goal=next((rung.id for rung in rungs if rung.stage is drying.stage), rungs[-1].id),
            relation=self._waiting(step),
        )

    def _of_casing(self, case: Step) -> tuple[tuple[Stage, ...], StepWindow | None]:
        derived = self._derived
        window = window_of(derived.work, derived.shelf, case.id, case.serves or "")
        if window is None or window.opens is None or window.closes is None:
            return (), None
        return (window.opens, window.closes), window

    def _of_drying(
        self, wet: Step, goal: Stage, entry: TreatmentEntry
    ) -> tuple[tuple[Stage, ...], StepWindow | None]:
        """Return the stages that matter, ascending, and the window of a next coat."""
        if goal is not Stage.TOUCH:
            is_clear = wet.kind is not StepKind.GLUE and entry.touch_min < entry.handle_min
            return (*((Stage.TOUCH,) if is_clear else ()), Stage.HANDLE), None
        derived = self._derived
        thens = (wait.then for wait in derived.waits if wait.first == wet.id)
        windows = (window_of(derived.work, derived.shelf, wet.id, then) for then in thens)
        window = next((w for w in windows if w is not None and w.closes is Stage.RECOAT_BY), None)
        return (Stage.TOUCH, Stage.RECOAT_BY if window else Stage.HANDLE), window

    def _waiting(self, step: Step) -> Before | None:
        """Return the relation by which something waits for a drying, or stands in its window.

        Of several that of the rule asked for, else one of ``_TELLING_RULES``, else the next step's.
        """
        derived, index = self._derived, self._derived.index
        asked = (index.relations[at] for at in index.by_first[index.number[step.id]])
        found = [
            relation
            for relation in asked
            if isinstance(relation, Before)
            and relation.reason.binds
            and derived.work.step(relation.then).attended
        ]
        if step.kind is StepKind.CASE:
            found = [relation for relation in found if relation.then == step.serves]
        return min(found, key=self._telling, default=None)

    def _telling(self, relation: Before) -> tuple[bool, bool, bool, int]:
        rule = relation.reason.rule
        return (
            rule != self._focus,
            rule not in _TELLING_RULES,
            relation.max_lag_min is None,
            self._derived.place[relation.then],
        )


def _rungs(
    stages: tuple[Stage, ...], body: Body, window: StepWindow | None, *, is_coat: bool
) -> tuple[Rung, ...]:
    def rung(stage: Stage) -> Rung:
        name, title = _COAT if is_coat and stage is Stage.TOUCH else _RUNGS.get(stage, _LATE_COAT)
        made_by = window.body_at(stage) if window else body
        return Rung(id=name, title=title, stage=stage, body=made_by)

    return (Rung(id=NOTHING, title=_NOTHING_YET), *map(rung, stages))


def is_latest(stage: Stage) -> bool:
    """Tell whether something has to be done by a stage, not after it."""
    return stage in LATEST
