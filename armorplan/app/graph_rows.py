"""The assembly graph and the step graph as rows."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from functools import cached_property

import networkx as nx

from armorplan.app.derived import Derived
from armorplan.app.rows import BenchState, GraphEdge, GraphNode, GraphRows
from armorplan.app.trays import summed_state, tray_title
from armorplan.relations.model import AfterAny, Apart, Before, Relation, Together
from armorplan.steps.model import Step
from armorplan.steps.naming import part_name

StateOf = Callable[[str], BenchState]


def _counted(kinds: Iterable[str]) -> str:
    found = list(kinds)
    counts = {kind: found.count(kind) for kind in dict.fromkeys(found)}
    return ", ".join(f"{n} {kind}{'s' if n > 1 else ''}" for kind, n in counts.items())


class Graphs:
    """Both graphs of one build: drawn up once when first asked for, told anew how steps stand."""

    def __init__(self, derived: Derived) -> None:
        self._derived = derived

    @cached_property
    def _assembly(self) -> GraphRows:
        return _assembly_graph(self._derived)

    @cached_property
    def _steps(self) -> GraphRows:
        return _step_graph(self._derived)

    def assembly(self, state_of: StateOf) -> GraphRows:
        """Return parts and what holds them together; ``state_of`` tells the state of a step."""
        return _standing(self._assembly, state_of)

    def steps(self, state_of: StateOf) -> GraphRows:
        """Return steps and what comes before what; ``state_of`` tells the state of a step."""
        return _standing(self._steps, state_of)


def _standing(rows: GraphRows, state_of: StateOf) -> GraphRows:
    nodes = (replace(n, state=summed_state(map(state_of, n.steps))) for n in rows.nodes)
    return replace(rows, nodes=tuple(nodes))


def _assembly_graph(derived: Derived) -> GraphRows:
    """Return parts as nodes and what holds them together as edges, joints of a pair in one edge."""
    assembly, work = derived.assembly, derived.work
    nodes = []
    for sided in assembly.parts:
        steps = tuple(s.id for s in work.touching(sided.id) if len(s.parts) == 1)
        nodes.append(
            GraphNode(
                id=sided.id,
                label=part_name(assembly, sided.id),
                kind=sided.part.kind,
                state=BenchState.WAITING,
                steps=steps,
                parts=(sided.id,),
                joints=tuple(j.id for j in assembly.joints_of(sided.id)),
            )
        )
    pairs: dict[tuple[str, str], list[str]] = {}
    for outer, inner, joint in assembly.graph().edges(keys=True):
        low, high = sorted((outer, inner))
        pairs.setdefault((low, high), []).append(joint)
    edges = tuple(
        GraphEdge(
            tail=tail,
            head=head,
            label=_counted(assembly.joint(j).joint.kind for j in joints),
            joints=tuple(joints),
        )
        for (tail, head), joints in pairs.items()
    )
    return GraphRows(nodes=tuple(nodes), edges=edges, directed=False)


def _grouping(derived: Derived, pairs: set[tuple[str, str]]) -> dict[str, str]:
    """Return the group of each step: its tray, or itself where trays would run in a circle.

    Two coats are one tray, but the drying between them is another; as groups they would wait for
    each other. The trays caught in such a circle are shown step by step.
    """
    group = {step.id: step.tray for step in derived.work.steps}
    graph = nx.DiGraph((group[a], group[b]) for a, b in pairs if group[a] != group[b])
    circles = {
        g for found in nx.strongly_connected_components(graph) if len(found) > 1 for g in found
    }
    return {step: step if tray in circles else tray for step, tray in group.items()}


def _group_node(derived: Derived, steps: list[Step], group: str) -> GraphNode:
    label = steps[0].title if len(steps) == 1 else tray_title(derived, tuple(steps))
    return GraphNode(
        id=group,
        label=label,
        kind=steps[0].kind,
        state=BenchState.WAITING,
        steps=tuple(step.id for step in steps),
        parts=tuple(dict.fromkeys(p for step in steps for p in step.parts)),
        joints=tuple(dict.fromkeys(j for step in steps for j in step.joints)),
    )


def _arrow(relation: Relation, place: Mapping[str, int]) -> tuple[str, str] | None:
    if relation.reason.overruled or isinstance(relation, Together | Apart):
        return None
    if isinstance(relation, Before):
        return relation.first, relation.then
    if isinstance(relation, AfterAny):
        others = relation.of - {relation.then}
        return (min(others, key=place.__getitem__), relation.then) if others else None
    others = relation.of - {relation.first}
    return (relation.first, max(others, key=place.__getitem__)) if others else None


def _step_graph(derived: Derived) -> GraphRows:
    """Return trays (or steps) and what comes before what, without what follows from the rest.

    'Before the last of several' has no arrow of its own: the chosen order tells which of them is
    the last, and the arrow goes there. Of 'after any of' it tells which is the first, and the
    arrow comes from there. 'Together' and 'apart' put no step before another.
    """
    place = derived.place
    rule: dict[tuple[str, str], str] = {}
    for relation in derived.index.relations if place else ():
        arrow = _arrow(relation, place)
        if arrow is not None and place[arrow[0]] < place[arrow[1]]:
            rule.setdefault(arrow, relation.reason.rule)
    group = _grouping(derived, set(rule))
    grouped: dict[str, list[Step]] = {}
    for step_id in derived.order:
        grouped.setdefault(group[step_id], []).append(derived.work.step(step_id))
    labels: dict[tuple[str, str], str] = {}
    for (first, then), code in rule.items():
        if group[first] != group[then]:
            labels.setdefault((group[first], group[then]), code)
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_nodes_from(grouped)
    graph.add_edges_from(labels)
    kept = nx.transitive_reduction(graph)
    return GraphRows(
        nodes=tuple(_group_node(derived, steps, name) for name, steps in grouped.items()),
        edges=tuple(
            GraphEdge(tail=tail, head=head, label=labels[tail, head])
            for tail, head in labels
            if kept.has_edge(tail, head)
        ),
        directed=True,
    )
