"""One step as it is read from a distance: what, with what, mind what, and what comes next."""

import re
from dataclasses import dataclass
from datetime import datetime

from armorplan.app.checklist_rows import ChecklistFacts
from armorplan.app.derived import Derived
from armorplan.app.moment import BenchMoment
from armorplan.app.rows import BenchState
from armorplan.app.trays import heading_title
from armorplan.geometry.stacks import POSTED, joint_post
from armorplan.kernel.units import about_words
from armorplan.pattern.joining import Motion
from armorplan.steps.model import SETS_JOINT, Step

_OVER = (BenchState.DONE, BenchState.EARLY)
_OPEN = tuple(state for state in BenchState if state not in _OVER)
_ASIDE = re.compile(r"\s*\([^()]*\)")
"""Sources and figures in brackets: read when seated, not from the bench."""
_MOVES = {Motion.FIXED: "", Motion.TURNING: ", must turn", Motion.SLIDING: ", must slide"}


@dataclass(frozen=True, slots=True, kw_only=True)
class RowMark:
    """One step of the row that a step belongs to, such as the rivets of one seam."""

    step: str
    is_done: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchCard:
    """All that the bench view says of a step.

    Attributes:
        kind: of the step, as ``StepKind`` writes it.
        where: the piece it is of.
        fastener: what is set, with its length; empty where nothing is.
        layers: what lies on what, the outermost first; empty where nothing is joined.
        company: who does it with whom beside, where the plan has two people at it; else empty.
        minutes: of hands-on work, or of waiting where time alone does it.
        caution: the first caution, without sources; ``cautions`` are all of them, as they are.
        waits_for: what it waits for, or by when it has to begin; may be empty.
        row: the steps of its tray in order, itself among them.
        done_count, all_count: steps of the build.
        next_title: the next step a person does, by the plan; empty where none is left.
        next_at: when that is planned; ``None`` where it is not planned.
    """

    step: str
    title: str
    kind: str
    state: BenchState
    where: str
    attended: bool
    minutes: int
    company: str = ""
    tool: str = ""
    fastener: str = ""
    layers: str = ""
    detail: str = ""
    caution: str = ""
    cautions: tuple[str, ...] = ()
    waits_for: str = ""
    row: tuple[RowMark, ...] = ()
    done_count: int = 0
    all_count: int = 0
    next_step: str = ""
    next_title: str = ""
    next_at: datetime | None = None

    @property
    def is_over(self) -> bool:
        """Whether it is done."""
        return self.state in _OVER

    @property
    def minutes_words(self) -> str:
        """How long it takes."""
        return about_words(self.minutes)


def bench_card(derived: Derived, moment: BenchMoment, step_id: str) -> BenchCard:
    """Return a step's card; KeyError where there is no such step."""
    step, states = derived.work.step(step_id), moment.states
    facts = ChecklistFacts(derived=derived, states=states, timers={}, spans={})
    coming = _next(derived, moment, step_id)
    span = moment.spans.get(coming.id) if coming else None
    return BenchCard(
        step=step.id,
        title=step.title,
        kind=step.kind,
        state=states.of(step.id),
        where=heading_title(derived, step),
        attended=step.attended,
        minutes=step.minutes,
        company=moment.company.get(step.id, ""),
        tool=step.tool,
        fastener=_fastener(derived, step),
        layers=_layers(step),
        detail=step.detail,
        caution=_ASIDE.sub("", step.cautions[0]) if step.cautions else "",
        cautions=step.cautions,
        waits_for=facts.waits_for(step),
        row=_row(derived, moment, step),
        done_count=sum(state in _OVER for state in states.states.values()),
        all_count=len(derived.work.steps),
        next_step=coming.id if coming else "",
        next_title=coming.title if coming else "",
        next_at=span[0] if span else None,
    )


def _fastener(derived: Derived, step: Step) -> str:
    """Return what is set with its post, or what holds where there is no post."""
    if step.kind not in SETS_JOINT or len(step.joints) != 1:
        return ""
    joint = derived.assembly.joint(step.joints[0]).joint
    if joint.kind not in POSTED:
        held = derived.shelf.treatment(joint.fastener) or derived.shelf.supply(joint.fastener)
        return held.name if held else ""
    post = joint_post(derived.pattern, derived.shelf, joint)
    if post is None:
        return ""
    length_mm = post.length_mm
    length = f"post {length_mm:g} mm" if length_mm else "no post on sale fits"
    return f"{post.fastener.name}, {length}{_MOVES[joint.motion]}"


def _layers(step: Step) -> str:
    return step.detail.partition(";")[0] if step.kind in SETS_JOINT else ""


def _row(derived: Derived, moment: BenchMoment, step: Step) -> tuple[RowMark, ...]:
    """Return the steps of a tray in the order of the build."""
    place = derived.place
    alike = [one for one in derived.work.steps if one.tray == step.tray]
    ordered = sorted(alike, key=lambda one: (place.get(one.id, 0), one.id))
    return tuple(
        RowMark(step=one.id, is_done=moment.states.of(one.id) in _OVER) for one in ordered
    )


def _next(derived: Derived, moment: BenchMoment, step_id: str) -> Step | None:
    """Return the next open step that a person does, in the plan's order."""
    found = (derived.work.step(step) for step in moment.in_order(*_OPEN) if step != step_id)
    return next((step for step in found if step.attended), None)
