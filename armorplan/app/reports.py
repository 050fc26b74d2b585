"""What the command line answers, as frozen values whose fields are the JSON's."""

from dataclasses import dataclass, replace

from armorplan.app.bench_states import states_now
from armorplan.app.chart_notes import nights_words, note_of
from armorplan.app.derived import Derived
from armorplan.app.effort_report import EffortReport, effort_report
from armorplan.app.reason_rows import Reasons
from armorplan.app.rows import WhyLine
from armorplan.app.shown_plan import shown
from armorplan.app.solvent_hours import solvent_words
from armorplan.app.wish_report import WayOut
from armorplan.geometry.measures import Measure
from armorplan.kernel.clock import Clock
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding
from armorplan.ledger.state import derive
from armorplan.pattern.parts import Point
from armorplan.relations.model import Quantity
from armorplan.schedule.problem import Plan, Problem, Stage
from armorplan.schedule.sittings import step_of


@dataclass(frozen=True, slots=True, kw_only=True)
class ReasonReport:
    """Why a step stands behind another one.

    ``also``: a nearer reason already sees to it. ``overruled``: the maker set it aside, and it
    asks for nothing. ``not_kept``: it only steers, the order does not keep it, and this is what it
    gives way to; empty where it is kept. ``numbers``: as they are said; ``exact``: as reckoned.
    """

    rule: str
    after: str
    text: str
    force: str
    source: str
    numbers: tuple[str, ...]
    exact: tuple[Quantity, ...]
    also: bool
    overruled: bool
    not_kept: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StepReport:
    """One step of the order."""

    id: str
    kind: str
    title: str
    piece: str
    side: str
    parts: tuple[str, ...]
    joints: tuple[str, ...]
    minutes: int
    attended: bool
    tool: str
    detail: str
    cautions: tuple[str, ...]
    reasons: tuple[ReasonReport, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedReport:
    """One sitting of a step in a plan; instants are ISO 8601 in UTC, ``who`` is null where time alone works.

    ``surely`` is when nine of ten dryings like it are ready, null where that is not known or not
    asked; ``note`` says of a drying when it is ready and why it takes so long, else it is empty.
    """

    id: str
    title: str
    start: str
    end: str
    who: str | None
    surely: str | None
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanReport:
    """A plan with how far it is proven.

    ``nights`` says what colder nights cost the dryings; empty where they cost nothing. ``solvent``
    says when most of it evaporates within a few hours; empty where nothing adds up. ``ways_out``
    holds what would free it where no plan is possible.
    """

    pattern: str
    status: str
    summary: str
    steps: tuple[PlannedReport, ...]
    stages: tuple[Stage, ...]
    conflict: str
    nights: str
    solvent: str
    findings: tuple[Finding, ...] = ()
    ways_out: tuple[WayOut, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderReport:
    """The steps in order, what was found in the pattern, and what setting the joints takes.

    ``effort`` is null where nothing is set or there is no order.
    """

    pattern: str
    steps: tuple[StepReport, ...]
    findings: tuple[Finding, ...] = ()
    effort: EffortReport | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkReport:
    """What is drawn over a part; spots in mm on the drawing, ``severity`` null for what is sound."""

    kind: str
    part: str
    spots: tuple[Point, ...]
    label: str
    severity: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeReport:
    """What the shapes tell of one thing; ``severity`` is null where all is sound."""

    id: str
    topic: str
    title: str
    verdict: str
    text: str
    severity: str | None
    figures: tuple[Figure, ...]
    marks: tuple[MarkReport, ...]
    about: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckReport:
    """What was found in a pattern and what its shapes tell; null where there is no pattern."""

    pattern: str | None
    findings: tuple[Finding, ...]
    shapes: tuple[ShapeReport, ...] = ()


def shape_report(measure: Measure) -> ShapeReport:
    """Return a measure with numbers as fine as they are told: spots to a hundredth of a mm."""
    return ShapeReport(
        id=measure.id,
        topic=measure.topic,
        title=measure.title,
        verdict=measure.verdict,
        text=measure.text,
        severity=measure.severity,
        figures=tuple(replace(each, value=round(each.value, 4)) for each in measure.figures),
        marks=tuple(
            MarkReport(
                kind=mark.kind,
                part=mark.part,
                spots=tuple((round(x, 2), round(y, 2)) for x, y in mark.spots),
                label=mark.label,
                severity=mark.severity,
            )
            for mark in measure.marks
        ),
        about=measure.about,
    )


def _reason(line: WhyLine) -> ReasonReport:
    return ReasonReport(
        rule=line.rule,
        after=line.other,
        text=line.text,
        force=line.force,
        source=line.source,
        numbers=line.numbers,
        exact=line.exact,
        also=line.also,
        overruled=line.overruled,
        not_kept=line.not_kept,
    )


def order_report(derived: Derived, clock: Clock) -> OrderReport:
    """Return the steps in order, each with all its reasons, the nearest first."""
    untouched = derive(())
    reasons = Reasons(derived, states_now(derived, untouched, clock.now()), untouched)
    found = []
    for step_id in derived.order:
        step = derived.work.step(step_id)
        found.append(
            StepReport(
                id=step.id,
                kind=step.kind,
                title=step.title,
                piece=step.piece,
                side=step.side,
                parts=step.parts,
                joints=step.joints,
                minutes=step.minutes,
                attended=step.attended,
                tool=step.tool,
                detail=step.detail,
                cautions=step.cautions,
                reasons=tuple(_reason(line) for line in reasons.why(step_id).needs),
            )
        )
    effort = derived.effort
    return OrderReport(
        pattern=derived.pattern.name,
        steps=tuple(found),
        findings=derived.findings,
        effort=effort_report(effort, derived.order) if effort and derived.order else None,
    )


def plan_report(derived: Derived, plan: Plan, problem: Problem, summary: str) -> PlanReport:
    """Return a plan by its instants, in the order of its starts."""
    instants = shown(plan, problem)
    placed = sorted(plan.placed, key=lambda p: (p.start_min, p.end_min, p.id))
    steps = []
    for one in placed:
        start_at, end_at = instants.span(one)
        step = derived.work.step(step_of(one.id))
        note = note_of(derived, step, start_at, end_at)
        surely_at = note.surely_at
        steps.append(
            PlannedReport(
                id=step.id,
                title=step.title,
                start=start_at.isoformat(),
                end=end_at.isoformat(),
                who=one.who,
                surely=None if surely_at is None else surely_at.isoformat(),
                note=note.text,
            )
        )
    return PlanReport(
        pattern=derived.pattern.name,
        status=plan.status,
        summary=summary,
        steps=tuple(steps),
        stages=plan.stages,
        conflict=plan.conflict,
        nights=nights_words(derived, instants.spans()),
        solvent=solvent_words(derived, instants.spans()),
        findings=derived.findings,
    )
