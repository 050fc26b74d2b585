"""The checklist as rows: headings, trays, steps; by piece or by day."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from itertools import groupby
from operator import is_
from zoneinfo import ZoneInfo

from armorplan.app.awaited import nearest_awaited
from armorplan.app.bench_states import BenchStates
from armorplan.app.derived import Derived
from armorplan.app.moment import BenchMoment
from armorplan.app.rows import BenchState, ChecklistRow, Grouping, TimerRow
from armorplan.app.start_windows import StartWindow
from armorplan.app.trays import heading_title, summed_state, tray_title
from armorplan.kernel.units import span_words
from armorplan.steps.model import Step

_DONE = (BenchState.DONE, BenchState.EARLY)
_UNPLANNED = "not planned yet"


@dataclass(slots=True)
class KeptRows:
    """The rows shown before, and of those that sum others up what they were made of.

    A press changes a few of hundreds: the others stay the very rows that they were.
    """

    derived: Derived | None = None
    steps: dict[str, ChecklistRow] = field(default_factory=dict)
    sums: dict[str, tuple[tuple[ChecklistRow, ...], ChecklistRow]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChecklistFacts:
    """What the rows are made of, all of one moment.

    ``spans`` are planned, or where a step was done, real instants. ``company`` says of steps with
    two people at them who does them with whom beside. ``kept`` are rows of the same
    build and grouping from before.
    """

    derived: Derived
    states: BenchStates
    timers: Mapping[str, TimerRow]
    spans: Mapping[str, tuple[datetime, datetime]]
    company: Mapping[str, str] = field(default_factory=dict)
    kept: KeptRows = field(default_factory=KeptRows, repr=False, compare=False)
    _done: frozenset[str] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Gather once what is done, in its turn or early: every step asks for it."""
        done = frozenset(step for step, state in self.states.states.items() if state in _DONE)
        object.__setattr__(self, "_done", done)

    @property
    def zone(self) -> ZoneInfo:
        """The shop's time zone, in which days and clock times are told."""
        return ZoneInfo(self.derived.shop.zone)

    def clock_words(self, at: datetime) -> str:
        """Return a clock time for the maker, with the weekday where it is not today."""
        local = at.astimezone(self.zone)
        today = self.states.as_of.astimezone(self.zone).date()
        return f"{local:%H:%M}" if local.date() == today else f"{local:%a %H:%M}"

    def waits_for(self, step: Step) -> str:
        """Return in a few words what a step waits for, or by when it has to begin."""
        if step.id in self.states.again:
            served = self.derived.work.step(self.states.again[step.id])
            return f"again, for '{served.title}'"
        state, soon_min = self.states.of(step.id), self.states.soon_min.get(step.id)
        if state in _DONE:
            too_soon = state is BenchState.EARLY and soon_min is not None
            return f"begun {span_words(soon_min or 0)} before its window opened" * too_soon
        return self._before(step)

    def _before(self, step: Step) -> str:
        relations = self.states.standing.waits_for.get(step.id, ())
        if relations and not step.attended:
            return "starts by itself"
        if relations:
            nearest = nearest_awaited(relations, step.id, self._done, self.derived.place)
            return self.derived.work.step(nearest).title if nearest else ""
        window = self.states.windows.get(step.id)
        return "" if window is None else self._window_words(window)

    def _window_words(self, window: StartWindow) -> str:
        if self.states.as_of < window.opens_at:
            return f"opens at {self.clock_words(window.opens_at)}"
        if window.by_at is None:
            return ""
        if window.is_missed(self.states.as_of):
            return f"closed at {self.clock_words(window.by_at)}. {window.remedy}".strip()
        return f"begin by {self.clock_words(window.by_at)}"


def _step_row(facts: ChecklistFacts, step: Step, parent: str) -> ChecklistRow:
    state, timer = facts.states.of(step.id), facts.timers.get(step.id)
    start_at, end_at = facts.spans.get(step.id, (None, None))
    waits_for = facts.waits_for(step)
    known = facts.kept.steps.get(step.id)
    company = "" if state in _DONE else facts.company.get(step.id, "")
    changing = parent, state, start_at, end_at, waits_for, company, timer
    if known is not None and changing == (
        known.parent,
        known.state,
        known.start_at,
        known.end_at,
        known.waits_for,
        known.company,
        known.timer,
    ):
        return known
    made = facts.kept.steps[step.id] = ChecklistRow(
        id=step.id,
        parent=parent,
        title=step.title,
        kind=step.kind,
        state=state,
        steps=(step.id,),
        parts=step.parts,
        joints=step.joints,
        minutes=step.minutes,
        attended=step.attended,
        done_count=int(state in _DONE),
        start_at=start_at,
        end_at=end_at,
        waits_for=waits_for,
        company=company,
        detail=step.detail,
        cautions=step.cautions,
        timer=timer,
    )
    return made


def _sum_row(
    kept: KeptRows,
    named: tuple[str, str | None, str, str],
    children: Iterable[ChecklistRow],
) -> ChecklistRow:
    """Return what some rows come to; ``named`` are its id, what it stands under, title and kind."""
    rows, (row_id, parent, title, kind) = tuple(children), named
    made_of, known = kept.sums.get(row_id, ((), None))
    is_same = len(made_of) == len(rows) and all(map(is_, made_of, rows))
    if known is not None and is_same and (known.parent, known.title) == (parent, title):
        return known
    starts = [row.start_at for row in rows if row.start_at]
    ends = [row.end_at for row in rows if row.end_at]
    ready = [row for row in rows if row.state is not BenchState.WAITING]
    made = ChecklistRow(
        id=row_id,
        parent=parent,
        title=title,
        kind=kind,
        state=summed_state(row.state for row in rows),
        steps=tuple(step for row in rows for step in row.steps),
        parts=tuple(dict.fromkeys(p for row in rows for p in row.parts)),
        joints=tuple(dict.fromkeys(j for row in rows for j in row.joints)),
        minutes=sum(row.minutes for row in rows if row.attended),
        attended=any(row.attended for row in rows),
        done_count=sum(row.done_count for row in rows),
        start_at=min(starts, default=None),
        end_at=max(ends, default=None),
        waits_for="" if ready else next((r.waits_for for r in rows if r.waits_for), ""),
        cautions=tuple(dict.fromkeys(c for row in rows for c in row.cautions)),
    )
    kept.sums[row_id] = rows, made
    return made


def _under_heading(
    facts: ChecklistFacts, heading: str, steps: list[Step]
) -> Iterator[ChecklistRow]:
    """Yield the rows below a heading: steps of one tray that follow each other under a tray."""
    for number, (_, run) in enumerate(groupby(steps, key=lambda step: step.tray)):
        tray = tuple(run)
        if len(tray) == 1:
            yield _step_row(facts, tray[0], heading)
            continue
        row_id = f"tray:{heading}:{tray[0].tray}:{tray[0].id}:{number}"
        rows = [_step_row(facts, step, row_id) for step in tray]
        named = row_id, heading, tray_title(facts.derived, tray), tray[0].kind
        yield _sum_row(facts.kept, named, rows)
        yield from rows


def _sections(
    facts: ChecklistFacts,
    steps: Iterable[Step],
    key_of: Callable[[Step], str],
    title_of: Callable[[Step], str],
) -> Iterator[ChecklistRow]:
    """Yield the steps under headings, one for each key: two pieces may share a title."""
    sections: dict[str, list[Step]] = {}
    for step in steps:
        sections.setdefault(key_of(step), []).append(step)
    for key, members in sections.items():
        row_id = f"heading:{key}"
        rows = list(_under_heading(facts, row_id, members))
        leaves = [row for row in rows if row.id == row.steps[0]]
        yield _sum_row(facts.kept, (row_id, None, title_of(members[0]), "heading"), leaves)
        yield from rows


def _by_tray(facts: ChecklistFacts) -> list[Step]:
    """Return the steps in order, those of one tray gathered at its first one."""
    order = [facts.derived.work.step(step) for step in facts.derived.order]
    first: dict[str, int] = {}
    for at, step in enumerate(order):
        first.setdefault(step.tray, at)
    return sorted(order, key=lambda step: first[step.tray])


def rows_at(
    moment: BenchMoment, timers: Mapping[str, TimerRow], grouping: Grouping, kept: KeptRows
) -> tuple[ChecklistRow, ...]:
    """Return the rows of the checklist at a moment, with these timers by step.

    Of the rows of this grouping that were shown before those that say the same are kept.
    """
    if kept.derived is not moment.derived:
        kept.derived = moment.derived
        kept.steps.clear()
        kept.sums.clear()
    spans = {step: (start, end) for step, (start, end, _) in moment.spans.items()}
    facts = ChecklistFacts(
        derived=moment.derived,
        states=moment.states,
        timers=timers,
        spans=spans,
        company=moment.company,
        kept=kept,
    )
    return checklist_rows(facts, grouping)


def checklist_rows(facts: ChecklistFacts, grouping: Grouping) -> tuple[ChecklistRow, ...]:
    """Return the rows of the checklist, parents before children."""
    if grouping is Grouping.PIECE:
        return tuple(
            _sections(
                facts,
                _by_tray(facts),
                lambda step: f"{step.piece}/{step.side}",
                lambda step: heading_title(facts.derived, step),
            )
        )

    def day(step: Step, words: str) -> str:
        span = facts.spans.get(step.id)
        return format(span[0].astimezone(facts.zone).date(), words) if span else _UNPLANNED

    far = max((start for start, _ in facts.spans.values()), default=facts.states.as_of)
    place = facts.derived.place
    ordered = sorted(
        (facts.derived.work.step(step) for step in facts.derived.order),
        key=lambda s: (facts.spans.get(s.id, (far, far))[0], place[s.id]),
    )
    return tuple(
        _sections(
            facts,
            ordered,
            lambda step: day(step, "%Y-%m-%d"),
            lambda step: day(step, "%A %d %B"),
        )
    )
