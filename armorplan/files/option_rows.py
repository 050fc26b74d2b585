"""The tables of build options, and ``only_with``, by which entries name choices."""

from armorplan.files.faults import brief
from armorplan.files.limits import TIMES
from armorplan.files.references import Names, check_ref, refs
from armorplan.files.tables import Table
from armorplan.files.values import flag, maybe_choice, maybe_number, maybe_text, text
from armorplan.pattern.joining import Applying
from armorplan.pattern.options import Choice, Option
from armorplan.steps.model import StepKind

_KINDS = Names(what="kind of step", ids=[kind.value for kind in StepKind])


def read_options(top: Table) -> tuple[Option, ...]:
    """Return the build options, in the order they are written."""
    found: list[Option] = []
    for key, row in top.table("options").rows():
        choices = _choices(row.table("choices"))
        option = Option(
            id=key,
            name=text(row, "name"),
            choices=choices,
            chosen=_chosen(row, choices),
            notes=maybe_text(row, "notes") or "",
        )
        if not choices:
            row.fault(
                "choices" if row.has("choices") else None,
                "nothing-there",
                f'The option "{brief(key)}" has no choices.',
                mend=f"Write a table [options.{brief(key)}.choices.ID] for each.",
            )
        row.finish()
        found.append(option)
    return tuple(found)


def _chosen(row: Table, choices: tuple[Choice, ...]) -> str:
    chosen = text(row, "chosen")
    if chosen and choices:
        names = Names(what="choice of this option", ids=[choice.id for choice in choices])
        check_ref(row, "chosen", value=chosen, names=names)
    return chosen


def _choices(table: Table) -> tuple[Choice, ...]:
    found: list[Choice] = []
    for key, row in table.rows():
        choice = Choice(
            id=key,
            name=text(row, "name"),
            tooling=flag(row, "tooling", default=True),
            by_machine=flag(row, "by_machine", default=False),
            applying=maybe_choice(row, "applying", Applying),
            times=_times(row.table("times")),
        )
        row.finish()
        found.append(choice)
    return tuple(found)


def _times(table: Table) -> tuple[tuple[str, float], ...]:
    """Return the factors by kind of step; a kind that does not exist is told."""
    found: list[tuple[str, float]] = []
    for kind in table.written():
        factor = maybe_number(table, kind, TIMES)
        check_ref(table, kind, value=kind, names=_KINDS)
        found.append((kind, factor or 1.0))
    return tuple(found)


def choice_names(options: tuple[Option, ...]) -> Names:
    """Return what ``only_with`` may name: each choice as ``option.choice``."""
    return Names(
        what="choice",
        ids=[f"{option.id}.{choice.id}" for option in options for choice in option.choices],
    )


def read_only_with(row: Table, choices: Names) -> tuple[str, ...]:
    """Return the choices that an entry is made with; empty: with all."""
    return refs(row, "only_with", choices)


def exclude_each_other(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    """Tell whether no build can have both entries: an option whose choices they share none of."""
    mine, theirs = _by_option(one), _by_option(other)
    return any(mine[option].isdisjoint(theirs[option]) for option in mine.keys() & theirs.keys())


def _by_option(only_with: tuple[str, ...]) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for name in only_with:
        option, _, choice = name.partition(".")
        found.setdefault(option, set()).add(choice)
    return found
