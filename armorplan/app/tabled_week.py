"""The plan shown in a window as a table, with what is said of its dryings."""

from collections.abc import Mapping
from datetime import datetime

from armorplan.app.chart_notes import NO_NOTE, BarNote, note_of
from armorplan.app.derived import Derived
from armorplan.app.in_hand import WeekPlan
from armorplan.app.plan_naming import naming_of
from armorplan.app.plan_table import Told, week_table
from armorplan.app.solvent_hours import solvent_words
from armorplan.schedule.facing import plan_words
from armorplan.schedule.sittings import step_of
from armorplan.sheets.week_table import WeekTable
from armorplan.workshop.shop import Shop


def tabled_week(
    week: WeekPlan,
    shop: Shop,
    *,
    title: str,
    builds: Mapping[str, Derived],
    origins: Mapping[str, str],
) -> WeekTable:
    """Return the plan shown as a table.

    Args:
        week: the plan and the problem it answers.
        shop: names of people and baths, and the zone.
        title: of the table.
        builds: what follows from each build that is planned; the open one first.
        origins: what names each in the world.
    """
    spans = week.shown.spans()
    (_, first), *others = builds.items()
    solvent = solvent_words(first, spans, [(derived, spans) for _, derived in others])

    def note(activity: str, start_at: datetime, end_at: datetime) -> BarNote:
        step = step_of(activity)
        derived = builds.get(step.partition("/")[0])
        known = derived is not None and derived.work.has(step)
        if derived is None or not known:
            return NO_NOTE
        return note_of(derived, derived.work.step(step), start_at, end_at)

    told = Told(
        title=title,
        sentence=plan_words(week.shown.plan, week.problem, naming_of(shop, week.problem))[0],
        notes=(solvent,) if solvent else (),
        note=note,
        origins=origins,
    )
    return week_table(week.problem, week.shown.plan, shop, told)
