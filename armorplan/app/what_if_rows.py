"""Plans side by side as rows: when each build ends and how late, against the plan at hand."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from armorplan.kernel.units import span_words
from armorplan.schedule.comparing import PlanSum
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import Plan, Problem
from armorplan.schedule.stages import FINISH, LATENESS


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildEnd:
    """When a build ends in a plan. ``late_min``: null where it is not due."""

    build: str
    title: str
    end_at: datetime
    late_min: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SideRow:
    """One plan among those that stand side by side.

    Attributes:
        key: what was asked, as it is written; empty for the plan at hand.
        title: the same in words.
        finish_at: when the last build ends; ``None`` where no plan is possible, or none was found.
        late_min: minutes late of all builds that are due, added up.
        against: how it differs from the plan at hand, in words.
        sureness: what is known of how good it is.
        is_last: nothing better is looked for any more.
    """

    key: str
    title: str
    finish_at: datetime | None
    late_min: int = 0
    builds: tuple[BuildEnd, ...] = ()
    changes: int = 0
    against: str = ""
    sureness: str = ""
    is_last: bool = True


def side_row(
    problem: Problem,
    plan: Plan,
    told: PlanSum | None,
    *,
    named: tuple[str, str],
    at_hand: PlanSum | None,
    naming: Naming,
) -> SideRow:
    """Return a plan as a row; ``told`` is what it comes to.

    Args:
        problem: with the change made.
        plan: for it; nothing placed where there is none.
        told: its sum; ``None`` where nothing is placed.
        named: what was asked, as written and in words.
        at_hand: the sum of the plan at hand; ``None``: this is it, or there is none.
        naming: what builds are called.
    """
    key, title = named
    if told is None:
        why = plan.conflict or "No plan was found in the time given."
        return SideRow(key=key, title=title, finish_at=None, against=why)
    origin_at = problem.origin_at
    builds = tuple(
        BuildEnd(
            build=job.job,
            title=naming.build(job.job),
            end_at=origin_at + timedelta(minutes=job.end_min),
            late_min=job.late_min,
        )
        for job in told.jobs
    )
    return SideRow(
        key=key,
        title=title,
        finish_at=origin_at + timedelta(minutes=told.finish_min),
        late_min=sum(b.late_min or 0 for b in builds),
        builds=builds,
        changes=told.changes,
        against=against_words(told, at_hand, is_open=_is_open(plan)) if at_hand else "",
        sureness=sure_words(plan),
    )


def against_words(told: PlanSum, at_hand: PlanSum, *, is_open: bool = False) -> str:
    """Say how a plan differs from the one at hand: its end, lateness, colour changes.

    ``is_open``: a better one might be found.
    """
    bits = [
        _than("ends", at_hand.finish_min - told.finish_min, "sooner", "later"),
        _than("", _late(at_hand) - _late(told), "less late", "more late"),
    ]
    fewer = at_hand.changes - told.changes
    if fewer:
        count = f"{abs(fewer)} colour change{'s' if abs(fewer) > 1 else ''}"
        bits.append(f"{count} {'fewer' if fewer > 0 else 'more'}")
    said = ", ".join(bit for bit in bits if bit)
    if not said:
        return "No difference found so far." if is_open else "No difference."
    return f"{said[0].upper()}{said[1:]}."


def _late(told: PlanSum) -> int:
    return sum(job.late_min or 0 for job in told.jobs)


def _than(verb: str, gained_min: int, better: str, worse: str) -> str:
    if not gained_min:
        return ""
    words = f"{span_words(abs(gained_min))} {better if gained_min > 0 else worse}"
    return f"{verb} {words}".strip()


def sure_words(plan: Plan) -> str:
    """Say how far a plan's lateness and finish are proved."""
    stages = {stage.name: stage for stage in plan.stages}
    late, finish = stages.get(LATENESS), stages.get(FINISH)
    if late is not None and late.value > late.bound:
        return "Whether it can be less late is not known yet."
    if finish is None:
        return "A plan that holds."
    gap = finish.value - finish.bound
    if gap <= 0:
        return "It cannot end sooner."
    return f"Whether it can end sooner is not known yet; at most {span_words(gap)}."


def _is_open(plan: Plan) -> bool:
    return any(s.value > s.bound for s in plan.stages if s.name in (LATENESS, FINISH))
