"""Measures the planner and prints a Markdown table: what was asked, what came out, how long it took.

Run from the project's folder, all of it or only what is named::

    PYTHONPATH=tests python tests/bench/schedule_table.py [--seconds-factor N] [j30 j60 ubo …]

The published instances are read from where ``outside.instance_files`` finds them and are left out
elsewhere. Ratios are against the serial plan by latest finish, laid in the same run. Seconds are
of the wall; CPU seconds are of this process and the solver's together, and leave out what else
the machine does.
"""

import argparse
import os
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from statistics import mean
from time import perf_counter, process_time, sleep

from outside.instance_files import best_known, data_folder, read_sch, read_sm
from outside.test_instances_outside import FT06, job_shop
from schedule.bench_problems import wardrobe
from schedule.full_week import full_week, load
from solving.small_models import two_tasks

from armorplan.schedule.checker import violations
from armorplan.schedule.critical import critical_times
from armorplan.schedule.measures import goals
from armorplan.schedule.planning import best_plan, first_plan, sought_plan
from armorplan.schedule.problem import Problem, Status
from armorplan.schedule.serial import Stuck, serial_placing
from armorplan.schedule.stages import FINISH, LATENESS
from armorplan.solving.keeper import SolverKeeper

Row = tuple[str, ...]
HEADINGS: Row = ("what", "goal", "measured", "against the serial rule", "s", "CPU s")
_TICKS = os.sysconf("SC_CLK_TCK") if hasattr(os, "sysconf") else 100


@dataclass
class Bench:
    """One solver for all rows, and how much longer than usual everything may take."""

    keeper: SolverKeeper
    factor: float

    def cpu_s(self) -> float:
        """Return the CPU seconds of this process and the solver's so far."""
        return process_time() + _cpu_of(self.keeper._worker.pid if self.keeper._worker else 0)

    def rss_mb(self) -> float:
        """Return the most memory both processes held so far."""
        solver = self.keeper._worker.pid if self.keeper._worker else 0
        return sum(_most_mb(pid) for pid in (os.getpid(), solver) if pid)


def _cpu_of(pid: int) -> float:
    try:
        words = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    except OSError:
        return 0.0
    return (int(words[11]) + int(words[12])) / _TICKS


def _most_mb(pid: int) -> float:
    try:
        lines = Path(f"/proc/{pid}/status").read_text(encoding="ascii").splitlines()
    except OSError:
        return 0.0
    return sum(int(line.split()[1]) / 1024 for line in lines if line.startswith("VmHWM"))


def by_latest_finish(problem: Problem) -> int | None:
    """Return the finish of the serial plan by latest finish; ``None`` where it gets stuck."""
    latest = {t.id: t.latest_end_min for t in critical_times(problem)}
    rank = {a.id: (latest[a.id], at) for at, a in enumerate(problem.activities)}
    placed = serial_placing(problem, rank)
    return None if isinstance(placed, Stuck) else goals(problem, placed)[FINISH]


def ratio(finish: float, serial: int | None) -> str:
    return "–" if not serial else f"{finish / serial:.3f}"


def instances(bench: Bench, size: str, seconds: float, goal: str) -> Iterator[Row]:
    """Plan all published instances of one size."""
    folder = data_folder()
    if folder is None:
        return
    known = {name: best for name, best in best_known(folder).items() if f"/{size}/" in name}
    decided, gaps, ratios, faults = 0, [], [], 0
    started, cpu = perf_counter(), bench.cpu_s()
    for name, best in sorted(known.items()):
        problem = (read_sm if name.endswith(".sm") else read_sch)(folder / name)
        plan = best_plan(problem, bench.keeper, seconds=seconds * bench.factor)
        if best is None:
            decided += plan.status is Status.NONE
            faults += bool(plan.placed)
            continue
        decided += plan.status is Status.BEST
        faults += bool(violations(problem, plan)) or not plan.placed
        faults += plan.placed != () and not best[0] <= plan.finish_min
        faults += plan.placed != () and plan.stages[0].bound > best[1]
        gaps.append(max(0, plan.finish_min / best[1] - 1))
        serial = by_latest_finish(problem)
        if serial:
            ratios.append(plan.finish_min / serial)
    said = (
        f"{decided} of {len(known)} decided, mean gap to the best known {100 * mean(gaps):.2f} %"
    )
    said += f", {faults} faults"
    yield (
        f"{size}, {seconds:g} s each",
        goal,
        said,
        f"{mean(ratios):.3f}",
        f"{perf_counter() - started:.1f}",
        f"{bench.cpu_s() - cpu:.1f}",
    )


def job_shop_rows(bench: Bench) -> Iterator[Row]:
    """Plan Fisher and Thompson's job shop."""
    problem = job_shop(FT06)
    started, cpu = perf_counter(), bench.cpu_s()
    plan = best_plan(problem, bench.keeper, seconds=20 * bench.factor)
    yield (
        "Fisher–Thompson 6×6",
        "55, proved",
        f"{plan.finish_min}, {plan.stages[0].status}",
        ratio(plan.finish_min, by_latest_finish(problem)),
        f"{perf_counter() - started:.2f}",
        f"{bench.cpu_s() - cpu:.2f}",
    )


def wardrobes(bench: Bench) -> Iterator[Row]:
    """Plan wardrobes: the first plan, and until the finish is proved."""
    for steps, people, seconds, goal in (
        (120, 1, 10, "proved in 1 s"),
        (120, 2, 10, "proved in 1 s"),
        (180, 1, 10, "proved in 10 s"),
        (180, 2, 10, "proved in 10 s"),
        (300, 1, 20, "first plan in 0.1 s"),
        (300, 2, 20, "first plan in 0.1 s"),
    ):
        problem = wardrobe(steps, people=people)
        cpu = process_time()
        first = first_plan(problem)
        first_s = process_time() - cpu
        started, cpu = perf_counter(), bench.cpu_s()
        told: list[float] = []
        plan = sought_plan(
            problem,
            bench.keeper,
            first,
            seconds=seconds * bench.factor,
            on_better=lambda p, told=told: told.append(p.stages[0].status is Status.BEST),
            should_stop=lambda told=told: bool(told and told[-1]),
        )
        finish = plan.stages[0]
        yield (
            f"wardrobe of {steps} steps, {people} at the bench",
            goal,
            (
                f"first plan in {first_s:.2f} CPU s; finish {finish.value}, bound {finish.bound}: "
                f"{finish.status}"
            ),
            ratio(finish.value, by_latest_finish(problem)),
            f"{perf_counter() - started:.2f}",
            f"{bench.cpu_s() - cpu:.2f}",
        )


def full_weeks(bench: Bench) -> Iterator[Row]:
    """Plan the nearly full week with five seeds: how late after a minute."""
    problem = full_week()
    cpu = process_time()
    first = first_plan(problem)
    first_s = process_time() - cpu
    for seed in range(1, 6):
        started, cpu = perf_counter(), bench.cpu_s()
        plan = sought_plan(
            problem,
            bench.keeper,
            first,
            seconds=60 * bench.factor,
            seed=seed,
            should_stop=lambda: bench.factor == 0,
        )
        late = goals(problem, plan.placed)[LATENESS]
        yield (
            (
                f"full week, {len(problem.activities)} steps, load {100 * load(problem):.1f} %, "
                f"seed {seed}"
            ),
            "no lateness in 60 s for 4 of 5 seeds",
            (
                f"lateness {first.stages[0].value} (first plan, {first_s:.2f} CPU s) → {late} min; "
                f"{len(violations(problem, plan))} faults"
            ),
            f"{plan.finish_min / first.finish_min:.3f} of the first plan",
            f"{perf_counter() - started:.1f}",
            f"{bench.cpu_s() - cpu:.1f}",
        )


def fifty_builds(bench: Bench) -> Iterator[Row]:
    """Plan fifty builds: the first plan, and how it gets better."""
    problem = full_week(builds=50)
    started, cpu = perf_counter(), process_time()
    first = first_plan(problem)
    first_s, first_cpu = perf_counter() - started, process_time() - cpu
    faults = len(violations(problem, first))
    told: list[tuple[float, int]] = []
    started, cpu = perf_counter(), bench.cpu_s()
    plan = sought_plan(
        problem,
        bench.keeper,
        first,
        seconds=60 * bench.factor,
        on_better=lambda p: told.append((perf_counter() - started, p.stages[0].value)),
    )
    quarters = [
        min([v for at, v in told if at <= 15 * bench.factor * n] or [first.stages[0].value])
        for n in (1, 2, 3, 4)
    ]
    yield (
        f"fifty builds, {len(problem.activities)} steps",
        "a checked plan in 5 s, then steadily better",
        (
            f"first plan in {first_s:.1f} s ({first_cpu:.1f} CPU s), {faults} faults; lateness "
            f"{first.stages[0].value} → {' → '.join(map(str, quarters))} by quarters of the time; "
            f"{len(violations(problem, plan))} faults"
        ),
        f"{plan.finish_min / first.finish_min:.3f} of the first plan",
        f"{perf_counter() - started:.1f}",
        f"{bench.cpu_s() - cpu:.1f}",
    )


def stops(bench: Bench) -> Iterator[Row]:
    """Stop searches at moments of all kinds; return how long the answer then took."""
    problem = full_week()
    first = first_plan(problem)
    waits = []
    for at in range(20):
        asked: list[float] = []
        due = perf_counter() + 0.17 * (1 + at)

        def should_stop(due=due, asked=asked) -> bool:
            if perf_counter() >= due and not asked:
                asked.append(due)
            return bool(asked)

        sought_plan(problem, bench.keeper, first, seconds=30, should_stop=should_stop)
        waits.append(perf_counter() - due)
    yield (
        "stopping a search of 300 steps, 20 times",
        "100 ms",
        f"longest {1000 * max(waits):.0f} ms, mean {1000 * mean(waits):.0f} ms",
        "–",
        "–",
        "–",
    )


def memory(bench: Bench) -> Iterator[Row]:
    """Return the most memory held by all before."""
    yield (
        "most memory, program without its window and solver together, all rows above",
        "400 MB",
        f"{bench.rss_mb():.0f} MB",
        "–",
        "–",
        "–",
    )


TOPICS: dict[str, Callable[[Bench], Iterator[Row]]] = {
    "ft06": job_shop_rows,
    "j30": lambda b: instances(b, "j30", 5, "95 % proved"),
    "j60": lambda b: instances(b, "j60", 30, "mean gap 1.5 %"),
    "ubo10": lambda b: instances(b, "ubo10", 5, "all decided"),
    "ubo20": lambda b: instances(b, "ubo20", 5, "all decided"),
    "ubo50": lambda b: instances(b, "ubo50", 10, "–"),
    "wardrobe": wardrobes,
    "week": full_weeks,
    "fifty": fifty_builds,
    "stop": stops,
    "memory": memory,
}


def show(row: Row) -> None:
    """Write one row of a Markdown table."""
    sys.stdout.write(f"| {' | '.join(row)} |\n")
    sys.stdout.flush()


def main(words: list[str]) -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("topics", nargs="*", choices=[*TOPICS, []], metavar="topic")
    parser.add_argument("--seconds-factor", type=float, default=1.0)
    asked = parser.parse_args(words)
    show(HEADINGS)
    show(("---",) * len(HEADINGS))
    with SolverKeeper() as keeper:
        keeper.solve(two_tasks())
        sleep(0)
        bench = Bench(keeper=keeper, factor=asked.seconds_factor)
        for name in asked.topics or TOPICS:
            for row in TOPICS[name](bench):
                show(row)


if __name__ == "__main__":
    main(sys.argv[1:])
