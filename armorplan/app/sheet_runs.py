"""The order of a build as chapters and runs of its bench sheet."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from armorplan.app.derived import Derived
from armorplan.app.reports import StepReport
from armorplan.app.sheet_fits import RunFits, StepFit
from armorplan.app.sheet_pairs import Numbered, pairs_of, plain
from armorplan.app.sheet_reasons import run_reasons
from armorplan.app.sheet_scenes import SheetScenes
from armorplan.app.sheet_times import SheetTimes
from armorplan.app.trays import tray_title
from armorplan.kernel.units import span_words
from armorplan.sheets.bench_sheet_model import Chapter, Scene, SheetLine, SheetRun, StackDrawing
from armorplan.steps.model import SETS_JOINT, STEP_RANK, Step, StepKind

_CHAPTERS = (
    (
        StepKind.MEASURE,
        "Paper, cutting and edges",
        "All that is done while the leather is dry and flat.",
    ),
    (
        StepKind.CASE,
        "Shaping, colour and finish",
        "What is wet: each coat and each shape waits for its hour.",
    ),
    (StepKind.MOUNT, "Dry fit", "The last point at which anything is cheap to change."),
    (StepKind.GLUE, "Joined for good", "From here on nothing comes apart without a trace."),
    (StepKind.FIT, "Last fit and packing", ""),
)
_ROUNDS = "The dry fit in rounds"
_FREE = frozenset((StepKind.OWN, StepKind.CHECK, StepKind.FORM_DRY))
"""Kinds that stand anywhere."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetSteps:
    """The steps of a build as its sheet tells them, with what is said of them."""

    derived: Derived
    order: tuple[Step, ...]
    reports: tuple[StepReport, ...]
    times: SheetTimes
    fits: tuple[StepFit, ...]


def chapters_of(told: SheetSteps) -> tuple[Chapter, ...]:
    """Return the order in chapters; empty where there is no order."""
    reports = {report.id: report for report in told.reports}
    steps = [
        Numbered(number=at, step=step, report=reports[step.id])
        for at, step in enumerate(told.order, start=1)
    ]
    if not steps:
        return ()
    writer = _Writer(told)
    stages = _stages([one.step.kind for one in steps])
    chapters = []
    for stage, found in groupby(zip(stages, steps, strict=True), key=lambda pair: pair[0]):
        _, title, intro = _CHAPTERS[stage]
        runs = tuple(writer.runs([one for _, one in found]))
        chapters.append(Chapter(title=title, intro=intro, runs=runs))
    return tuple(chapters)


def _stages(kinds: Sequence[StepKind]) -> list[int]:
    """Return a chapter for each step, never a former one again, as few as can be in a wrong one."""
    first = [STEP_RANK[kind] for kind, _, _ in _CHAPTERS]
    best = [0] * len(first)
    chosen: list[list[int]] = []
    for kind in kinds:
        own = sum(STEP_RANK[kind] >= rank for rank in first) - 1
        costs, from_stage, least = [], [], 0
        for stage in range(len(first)):
            least = stage if best[stage] < best[least] else least
            wrong = 0 if kind in _FREE else int(own != stage)
            costs.append(best[least] + wrong)
            from_stage.append(least)
        best = costs
        chosen.append(from_stage)
    stage = min(range(len(first)), key=lambda at: best[at])
    found = []
    for former in reversed(chosen):
        found.append(stage)
        stage = former[stage]
    return found[::-1]


class _Writer:
    """Writes the runs of one build."""

    def __init__(self, told: SheetSteps) -> None:
        self._derived = told.derived
        self._times = told.times
        self._fits = RunFits(told.fits)
        self._scenes = SheetScenes(told.derived)
        self._drawn: set[tuple[str, ...]] = set()
        self._reasoned: dict[tuple[StepKind, frozenset[str]], str] = {}
        self._cautioned: list[tuple[str, frozenset[str]]] = []

    def runs(self, steps: Sequence[Numbered]) -> Iterator[SheetRun]:
        """Yield runs of a chapter: steps that follow each other and are one kind of work."""
        self._drawn.clear()
        self._reasoned.clear()
        for _, found in groupby(steps, key=lambda s: tray_title(self._derived, (s.step,))):
            yield self._run(list(found))

    def _run(self, run: list[Numbered]) -> SheetRun:
        steps = [one.step for one in run]
        fits = self._fits.of(run)
        pairs = pairs_of(run, self._detail, is_timed=self._is_timed)
        marks = {
            joint: str(pair[0].number)
            for pair in pairs
            for one in pair
            for joint in one.step.joints
        }
        stacks = self._scenes.stacks(steps, marks)
        lines = self._lines(pairs, told_by=stacks)
        told, before = self._cautions(run)
        return SheetRun(
            title=_title(self._derived, steps) if len(lines) > 1 else "",
            summary=_summary(run),
            lines=lines,
            when=self._times.span(steps) if len(lines) > 1 else "",
            tools="; ".join(dict.fromkeys(filter(None, map(self._tool, steps)))),
            cautions=told if before is None else (),
            cautions_at=before or "",
            reasons=self._reasons(run),
            scene=self._scene(steps, marks),
            stacks=stacks,
            fits=tuple(replace(fit, title=_ROUNDS) for fit in fits) if len(lines) == 1 else fits,
        )

    def _tool(self, step: Step) -> str:
        """Return what a step is done with; of a dry fit its own pins tell that."""
        return "" if self._fits.words(step.id) else step.tool

    def _is_timed(self, step: Step) -> bool:
        return bool(self._times.window(step))

    def _scene(self, steps: list[Step], marks: Mapping[str, str]) -> Scene | None:
        """Return the picture of a run; parts without a mark are drawn but once in a chapter."""
        scene = self._scenes.of_run(steps, marks)
        if scene is None or any(hole.mark for part in scene.parts for hole in part.holes):
            return scene
        drawn = tuple(plain(part.name) for part in scene.parts)
        if drawn in self._drawn:
            return None
        self._drawn.add(drawn)
        return scene

    def _reasons(self, run: list[Numbered]) -> tuple[str, ...]:
        """Return the reasons of a run; of work like a former one's, that step is named instead."""
        kind, number = run[0].step.kind, str(run[0].number)
        found = run_reasons(one.report for one in run)
        if kind in SETS_JOINT or not found:
            return found
        rules = frozenset(reason.rule for one in run for reason in one.report.reasons)
        first = self._reasoned.setdefault((kind, rules), number)
        return found if first == number else (f"As at step {first}.",)

    def _cautions(self, run: list[Numbered]) -> tuple[tuple[str, ...], str | None]:
        """Return the cautions of a run, and at which step all of them stand already."""
        told = tuple(dict.fromkeys(caution for one in run for caution in one.step.cautions))
        for number, before in reversed(self._cautioned):
            if before.issuperset(told):
                return told, number if told else None
        self._cautioned.append((str(run[0].number), frozenset(told)))
        return told, None

    def _lines(
        self, pairs: list[tuple[Numbered, ...]], *, told_by: tuple[StackDrawing, ...]
    ) -> tuple[SheetLine, ...]:
        """Return the lines; what stands alike at the former one, or by a section, is told once."""
        lines, former = [], ""
        for pair in pairs:
            is_drawn = bool(told_by) and self._scenes.has_stack(pair[0].step)
            detail = "" if is_drawn else self._detail(pair[0].step)
            detail = plain(detail) if len(pair) > 1 else detail
            told = "" if detail == former else as_sentence(detail, plain(pair[0].step.title))
            lines.append(self._line(pair, told, run=pairs))
            former = detail
        return tuple(lines)

    def _line(
        self, pair: tuple[Numbered, ...], detail: str, *, run: list[tuple[Numbered, ...]]
    ) -> SheetLine:
        first, steps = pair[0].step, [one.step for one in pair]
        is_pair = len(pair) > 1
        spent = span_words(first.minutes)
        windows = {one.step.side.value: self._times.window(one.step) for one in pair}
        return SheetLine(
            number=", ".join(str(one.number) for one in pair),
            title=plain(first.title) if is_pair else first.title,
            boxes=() if not first.attended else ("L", "R") if is_pair else ("",),
            spent=f"2 × {spent}" if is_pair else spent,
            detail=detail,
            when=self._times.span(steps) if len(run) == 1 else "",
            begins=self._times.starts(steps, run[0][0].step) if len(run) > 1 else "",
            window=_window_words(windows),
        )

    def _detail(self, step: Step) -> str:
        """Return what else is to know; of a joint what it is, without how its minutes came about."""
        if step.kind in SETS_JOINT:
            return self._derived.flat_work.step(step.id).detail
        return " ".join(filter(None, (step.detail, self._fits.words(step.id))))


def as_sentence(detail: str, title: str) -> str:
    """Return a detail as a sentence; empty where the step's title says it already.

    >>> as_sentence("radius 72 mm", "Dish boss"), as_sentence("8 parts", "Dye: 8 parts")
    ('Radius 72 mm.', '')
    """
    if not detail or detail in title:
        return ""
    started = detail[:1].upper() + detail[1:]
    return started if started.endswith((".", "!", "?")) else f"{started}."


def _window_words(windows: Mapping[str, str]) -> str:
    """Return the windows of a step, or of both sides, each with its side where they differ."""
    told = {side: window for side, window in windows.items() if window}
    if len(set(told.values())) <= 1:
        return next(iter(told.values()), "")
    return " ".join(
        f"{side.capitalize()}: {window[0].lower()}{window[1:]}" for side, window in told.items()
    )


def _title(derived: Derived, steps: Sequence[Step]) -> str:
    title = tray_title(derived, tuple(steps))
    return title[:1].upper() + title[1:]


def _summary(run: list[Numbered]) -> str:
    by_hand = sum(one.step.minutes for one in run if one.step.attended)
    numbers = sorted(one.number for one in run)
    named = f"steps {numbers[0]} to {numbers[-1]}"
    return f"{named}, {span_words(by_hand)}" if by_hand else named
