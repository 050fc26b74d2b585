"""The invented build as graphs, as the coming days, and as a planning problem."""

from collections import defaultdict
from datetime import datetime, timedelta

from desktop.fake_scenario import ORIGIN_AT, FakeStep

from armorplan.app.rows import (
    BenchState,
    Chart,
    ChartBar,
    ChecklistRow,
    Diagram,
    GraphEdge,
    GraphNode,
    GraphRows,
)
from armorplan.schedule.activity import Activity
from armorplan.schedule.problem import Lag, Problem, Worker

ZONE = "Europe/London"


def assembly_graph_of(steps: tuple[FakeStep, ...], diagram: Diagram) -> GraphRows:
    """Parts, and the rivets between each two of them."""
    touching: dict[str, list[str]] = defaultdict(list)
    for step in steps:
        for part in step.parts:
            touching[part].append(step.id)
    nodes = tuple(
        GraphNode(
            id=p.id,
            label=p.name,
            kind=p.kind,
            state=BenchState.WAITING,
            parts=(p.id,),
            steps=tuple(touching[p.id]),
        )
        for p in diagram.parts
    )
    pairs: dict[tuple[str, str], list[str]] = defaultdict(list)
    for joint in diagram.joints:
        pairs[(joint.parts[0], joint.parts[1])].append(joint.id)
    edges = tuple(
        GraphEdge(tail=a, head=b, label=f"{len(js)} rivets", joints=tuple(js))
        for (a, b), js in sorted(pairs.items())
    )
    return GraphRows(nodes=nodes, edges=edges, directed=False)


def step_graph_of(steps: tuple[FakeStep, ...], rows: tuple[ChecklistRow, ...]) -> GraphRows:
    """Trays, and which comes before which."""
    tray_of = {s.id: s.tray for s in steps}
    nodes = tuple(
        GraphNode(
            id=r.id,
            label=r.title,
            kind="tray",
            state=r.state,
            steps=r.steps,
            parts=r.parts,
            joints=r.joints,
        )
        for r in rows
        if r.id.startswith("tray:")
    )
    links = {(tray_of[n], s.tray) for s in steps for n in s.needs if tray_of[n] != s.tray}
    edges = tuple(GraphEdge(tail=a, head=b, label="before") for a, b in sorted(links))
    return GraphRows(nodes=nodes, edges=edges, directed=True)


def chart_of(
    steps: tuple[FakeStep, ...],
    states: dict[str, BenchState],
    start_at: dict[str, datetime],
    now_at: datetime,
) -> Chart:
    """Bars in two lanes, with the nights between."""
    bars = tuple(
        ChartBar(
            step=s.id,
            title=s.title,
            lane="Maker" if s.attended else "Drying",
            start_at=start_at[s.id],
            end_at=start_at[s.id] + timedelta(minutes=s.minutes),
            attended=s.attended,
            state=states[s.id],
        )
        for s in steps
    )
    days = range(1 + (max(b.end_at for b in bars) - ORIGIN_AT).days)
    closed = tuple(
        (ORIGIN_AT + timedelta(days=d, hours=9), ORIGIN_AT + timedelta(days=d + 1, hours=1))
        for d in days
    )
    return Chart(bars=bars, lanes=("Maker", "Drying"), closed=closed, now_at=now_at, zone=ZONE)


def problem_of(steps: tuple[FakeStep, ...]) -> Problem:
    """The planning problem, with one maker."""
    activities = tuple(
        Activity(id=s.id, minutes=s.minutes, people=("Maker",) if s.attended else ())
        for s in steps
    )
    ids = {s.id for s in steps}
    return Problem(
        origin_at=ORIGIN_AT,
        horizon_min=60 * 24 * 30,
        activities=activities,
        lags=tuple(Lag(first=n, then=s.id) for s in steps for n in s.needs if n in ids),
        workers=(Worker(id="Maker", windows=((60, 540),)),),
    )
