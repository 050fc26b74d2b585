"""One build with all that follows from its pattern: assembly, steps, relations, their order."""

from collections.abc import Mapping
from dataclasses import dataclass

from armorplan.app.effort_rank import Key, LeastEffort, effort_of, effort_places
from armorplan.app.effort_times import JointTime, joint_times, timed
from armorplan.app.kept_relations import kept_findings, standing_relations
from armorplan.app.learned_order import taught
from armorplan.app.mending import Mending
from armorplan.app.not_kept import not_kept, not_kept_findings
from armorplan.app.order_key import alike, order_key
from armorplan.assembly.expand import assemble
from armorplan.assembly.model import Assembly
from armorplan.files.source import PATTERN_FILE
from armorplan.geometry.checking import shape_findings
from armorplan.geometry.gathering import measures
from armorplan.geometry.measures import Measure
from armorplan.kernel.findings import Finding, Place, Severity
from armorplan.orders.sequence import Sequence, one_order
from armorplan.pattern.choosing import settled
from armorplan.pattern.pattern import Pattern
from armorplan.relations.conflict import conflict_words
from armorplan.relations.index import RelationIndex, index_relations
from armorplan.relations.model import Before, Relation
from armorplan.relations.weighing import weight
from armorplan.rules.facts import Facts
from armorplan.rules.registry import derive_all
from armorplan.steps.airing import air_findings
from armorplan.steps.deriving import derive_steps
from armorplan.steps.model import SETS_JOINT, Step, Work
from armorplan.workshop.learned_hands import with_hands
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Derived:
    """Everything that follows from one pattern, one shelf and one shop.

    Attributes:
        pattern: as it is built, every option decided.
        work: the steps; what sets a joint with the minutes that this takes in the order.
        flat_work: the same with the minutes of the flat bench, which relations are reckoned from.
        place: where a step stands in the order; empty where the relations contradict.
        waits: the relations between its steps that count minutes from the end of the first.
        not_kept: by relation that only steers and that the order does not keep, what it gives way to.
        shapes: what rows, covers, bends, posts and lames tell, sound or not, by topic.
        effort: the order of least effort of what sets joints, and its minutes; ``None`` where
            nothing is set, or the relations contradict.
        times: by plain joint what it takes in the order; empty without ``effort`` or an order.
        mending: the ways back chosen at its bench (``app.mended_build``); ``None``: as it follows.
    """

    pattern: Pattern
    shelf: Shelf
    shop: Shop
    assembly: Assembly
    work: Work
    flat_work: Work
    relations: tuple[Relation, ...]
    index: RelationIndex
    sequence: Sequence
    findings: tuple[Finding, ...]
    place: Mapping[str, int]
    waits: tuple[Before, ...]
    not_kept: Mapping[Relation, str]
    shapes: tuple[Measure, ...]
    effort: LeastEffort | None
    times: Mapping[str, JointTime]
    mending: Mending | None = None

    @property
    def order(self) -> tuple[str, ...]:
        """The one order of all steps; empty where the relations contradict each other."""
        return self.sequence.order

    def exact_min(self, step: Step) -> float:
        """Return a step's minutes as they are reckoned, before they are made whole ones."""
        joint = step.joints[0] if step.kind in SETS_JOINT else ""
        time = self.times.get(self.assembly.joint(joint).joint.id) if joint else None
        return step.minutes if time is None else time.minutes

    @property
    def facts(self) -> Facts:
        """What rules look at."""
        room = self.shop.room
        return Facts(assembly=self.assembly, work=self.flat_work, shelf=self.shelf, room=room)


def _with_effort(
    assembly: Assembly, shelf: Shelf, work: Work, relations: tuple[Relation, ...]
) -> tuple[dict[str, Key], LeastEffort | None]:
    """Return where each step would like to stand, what sets joints in the order of least effort."""
    listed = order_key(work, relations)
    effort = effort_of((assembly, shelf, work), relations, listed)
    if effort is None:
        return listed, None
    places = effort_places(effort, listed)
    moved = {alike(effort.steps[joint]): place for joint, place in places.items()}
    return order_key(work, relations, moved), effort


class _Arranging:
    """Finds the order for relations; what was asked last is kept."""

    def __init__(self, assembly: Assembly, shelf: Shelf, work: Work) -> None:
        self._made_of = (assembly, shelf, work)
        self._asked: tuple[Relation, ...] | None = None
        self._found: tuple[Sequence, LeastEffort | None] | None = None

    def __call__(self, relations: tuple[Relation, ...]) -> tuple[Sequence, LeastEffort | None]:
        if self._found is None or relations != self._asked:
            key, effort = _with_effort(*self._made_of, relations)
            steps = (step.id for step in self._made_of[2].steps)
            self._asked = relations
            self._found = one_order(steps, relations, key=key.__getitem__), effort
        return self._found


def _conflict_findings(sequence: Sequence, work: Work) -> tuple[Finding, ...]:
    if not sequence.conflict:
        return ()
    own = _own_ids(sequence.conflict)
    words = conflict_words(sequence.conflict, lambda step: work.step(step).title)
    return (
        Finding(
            code="no-order-possible",
            severity=Severity.ERROR,
            text=f"No order keeps all relations: {words}",
            remedy=_way_out(own),
            about=own,
            place=_entry(own),
        ),
    )


def _own_ids(relations: tuple[Relation, ...]) -> tuple[str, ...]:
    """Return the ids of the maker's own among relations, the lightest first."""
    made = sorted((r for r in relations if r.reason.own_id), key=weight)
    return tuple(dict.fromkeys(relation.reason.own_id for relation in made))


def _way_out(own: tuple[str, ...]) -> str:
    if not own:
        return "Change the pattern so that one of these no longer holds."
    tables = " or ".join(f"[relations.{one}]" for one in own)
    return f"Change {tables} in {PATTERN_FILE}, or take it out."


def _entry(own: tuple[str, ...]) -> Place | None:
    return Place(file=PATTERN_FILE, key=f"relations.{own[0]}") if own else None


def _unsettled_findings(sequence: Sequence) -> tuple[Finding, ...]:
    """Tell what the order breaks because no order that keeps all was found within the limits."""
    if not sequence.unsettled:
        return ()
    reasons = " ".join(relation.reason.text for relation in sequence.unsettled)
    own = _own_ids(sequence.unsettled)
    return (
        Finding(
            code="order-not-found",
            severity=Severity.WARNING,
            text="Whether an order keeps all relations could not be settled; this one does not "
            f"keep: {reasons}",
            remedy="Make some of your own 'after any of' and 'together' plainer.",
            about=own,
            place=_entry(own),
        ),
    )


def waits_among(index: RelationIndex) -> tuple[Before, ...]:
    """Return the relations between an index's steps that count minutes."""
    return tuple(r for r in index.relations if isinstance(r, Before) and _waits(r))


def _waits(relation: Before) -> bool:
    """Tell whether a relation that nobody set aside counts minutes."""
    counts = relation.lag_min or relation.max_lag_min is not None
    return bool(counts) and not relation.reason.overruled


def derive_build(
    pattern: Pattern,
    shelf: Shelf,
    shop: Shop,
    *,
    build: str,
    kept: tuple[Relation, ...] | None = None,
) -> Derived:
    """Return all that follows from a pattern.

    Args:
        pattern: as read from its folder or from a build's snapshot; it is built with the choices
            in force.
        shelf: the catalogues; what the shop learned of its hands goes over their minutes.
        shop: people, hours and air, and what was learned of hands.
        build: the build's id, first part of every step id.
        kept: the relations a running build was started with; they stand, with the minutes and
            words of today. What the rules of today would add or drop is told as a finding.
    """
    pattern, shelf = settled(pattern), with_hands(shelf, shop.hands)
    shapes = measures(pattern, shelf)
    assembly = assemble(pattern, shelf, build=build)
    work = derive_steps(assembly, shelf, shop.room)
    arranged = _Arranging(assembly, shelf, work)
    facts = Facts(assembly=assembly, work=work, shelf=shelf, room=shop.room)
    fresh = derive_all(assembly, work, shelf, shop.room)
    lessons = taught(facts, fresh.relations, lambda keep: arranged(keep)[0].order)
    if lessons.relations:
        fresh = derive_all(assembly, work, shelf, shop.room, learned=lessons.relations)
    stands = standing_relations(fresh.relations, kept)
    relations = stands.relations
    index = index_relations((step.id for step in work.steps), relations)
    sequence, effort = arranged(relations)
    set_aside = not_kept(sequence, relations)
    times = joint_times(effort, sequence.order) if effort and sequence.order else {}
    return Derived(
        pattern=pattern,
        shelf=shelf,
        shop=shop,
        assembly=assembly,
        work=timed(work, assembly, shelf, times),
        flat_work=work,
        relations=relations,
        index=index,
        sequence=sequence,
        findings=(
            *shape_findings(pattern, shelf, shapes),
            *air_findings(work, shelf, shop.room),
            *fresh.findings,
            *lessons.findings,
            *_conflict_findings(sequence, work),
            *_unsettled_findings(sequence),
            *not_kept_findings(set_aside),
            *kept_findings(stands),
        ),
        place={step: at for at, step in enumerate(sequence.order)},
        waits=waits_among(index),
        not_kept=set_aside,
        shapes=shapes,
        effort=effort,
        times=times,
    )
