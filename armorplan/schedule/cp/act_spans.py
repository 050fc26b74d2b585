"""Writes the start, the end and the variant of every activity for the solver."""

from armorplan.schedule.activity import Activity
from armorplan.schedule.cp.acts import Acts
from armorplan.schedule.cp.draft import Draft, Told
from armorplan.schedule.cp.reading import Reading
from armorplan.schedule.cp.variants import Ranges, Variant, meet, union
from armorplan.schedule.problem import Placed
from armorplan.schedule.table import Table
from armorplan.solving.model import MOST, Term, at_most


def lay_acts(draft: Draft, acts: Acts) -> None:
    """Add every activity's variables, of what is fixed and of what is free."""
    spans = _Spans(draft, acts)
    for activity in acts.problem.activities:
        if activity.id in acts.history:
            spans.lay_history(acts.history[activity.id])
        else:
            spans.lay(activity)


class _Spans:
    """Writes one activity after another."""

    def __init__(self, draft: Draft, acts: Acts) -> None:
        self._draft = draft
        self._acts = acts
        self._by_hands = _begun_by_hands(acts)

    def lay_history(self, placed: Placed) -> None:
        start = self._acts.start(placed.id)
        self._draft.number(start, ((placed.start_min,) * 2,), lambda _: placed.start_min)
        minutes = placed.end_min - placed.start_min
        self._acts.lasts(placed.id, minutes, (start, minutes))

    def lay(self, activity: Activity) -> None:
        name, start = activity.id, self._acts.start(activity.id)
        starts = union(v.starts for v in self._acts.variants(name))
        self._draft.number(start, starts or ((0, 0),), lambda plan: plan.start(name))
        self._lay_choice(activity, starts)
        lengths = sorted({v.takes for v in self._acts.variants(name)})
        if activity.table is not None and starts:
            self._lay_table(activity, activity.table)
        elif activity.dip is not None and starts:
            self._lay_dip(activity, lengths[0])
        elif len(lengths) > 1:
            self._lay_lengths(activity, lengths)
        else:
            minutes = lengths[0] if lengths else 0
            self._acts.lasts(name, minutes, (start, minutes))

    def _lay_choice(self, activity: Activity, starts: Ranges) -> None:
        literals = []
        for variant, literal in self._acts.chosen(activity.id):
            if literal is None:
                return
            literals.append(self._draft.boolean(literal, _told_way(activity, variant)))
            if variant.starts != starts:
                self._draft.keep(((self._acts.start(activity.id), 1),), variant.starts, literal)
        # Of no variants at all none can be true: there is no plan, as the solver will say.
        self._draft.one_of(*literals) if literals else self._draft.some_of()

    def _lay_lengths(self, activity: Activity, lengths: list[int]) -> None:
        """Add duration and end of what takes as long as its variant."""
        takes = self._lay_span(activity.id, tuple((n, n) for n in lengths))
        parts = ((lit, -v.takes) for v, lit in self._acts.chosen(activity.id) if lit and v.takes)
        self._draft.keep(((takes, 1), *parts), ((0, 0),))

    def _lay_dip(self, activity: Activity, least: int) -> None:
        """Add duration and end of what goes into a bath; its batch says how long."""
        self._lay_span(activity.id, ((least, self._acts.most_min),))

    def _lay_table(self, activity: Activity, table: Table) -> None:
        name, start = activity.id, self._acts.start(activity.id)
        at, ranges = self._begins_at(name)
        end = self._acts.look_ups.ready_at(
            start, table, self._acts.look_ups.cells(at, table, ranges), lambda plan: plan.end(name)
        )
        takes = self._draft.number(
            f"{start} takes", ((table.shortest_min, table.longest_min),), _told_takes(name)
        )
        self._draft.keep(((end, 1),), at_most(self._acts.most_min))
        self._join(start, takes, end)
        self._acts.lasts(name, takes, (end, 0))

    def _lay_span(self, name: str, lengths: Ranges) -> str:
        start = self._acts.start(name)
        ends = ending_free(self._acts.by_id[name], self._acts.most_min)
        takes = self._draft.number(f"{start} takes", lengths, _told_takes(name))
        end = self._draft.number(f"{start} end", ends, lambda plan: plan.end(name))
        self._join(start, takes, end)
        self._acts.lasts(name, takes, (end, 0))
        return takes

    def _join(self, start: str, takes: str, end: str) -> None:
        self._draft.keep(((end, 1), (start, -1), (takes, -1)), ((0, 0),))

    def _begins_at(self, name: str) -> tuple[Term, Ranges]:
        """Return where a start with a table lies, and when: within hours where hands come before.

        What dries and what cures after the same coat, and the window of the next, are so looked
        up from the same end.
        """
        hands = self._by_hands.get(name)
        if hands is None:
            return (self._acts.start(name), 0), union(v.starts for v in self._acts.variants(name))
        takes = self._acts.variants(hands)[0].takes
        return (self._acts.start(hands), takes), self._acts.end_ranges(hands)


def ending_free(activity: Activity, most_min: int) -> Ranges:
    """Return the minutes at which an activity may end, hours aside."""
    ends: Ranges = ((0, most_min),)
    for shut_from, shut_till in activity.ends_outside:
        ends = meet(ends, ((-MOST, shut_from - 1), (shut_till, MOST)))
    return ends or ((0, most_min),)


def _told_way(activity: Activity, variant: Variant) -> Told:
    def told(plan: Reading) -> int:
        lies = plan.lies[activity.id]
        same_length = not activity.sitting_min or lies.end_min - lies.start_min == variant.takes
        return int((lies.who, lies.mode) == (variant.way.who, variant.way.name) and same_length)

    return told


def _told_takes(name: str) -> Told:
    return lambda plan: plan.end(name) - plan.start(name)


def _begun_by_hands(acts: Acts) -> dict[str, str]:
    """Return what goes by a table and begins as hands come off something, with that something."""
    by_id = acts.by_id
    return {
        lag.then: lag.first
        for lag in acts.problem.lags
        if lag.min_lag == lag.max_lag == 0
        and by_id[lag.then].table is not None
        and not by_id[lag.then].people
        and by_id[lag.first].people
        and by_id[lag.first].table is None
        and by_id[lag.first].dip is None
        and len({v.takes for v in acts.variants(lag.first)}) == 1
        and lag.then not in acts.history
    }
