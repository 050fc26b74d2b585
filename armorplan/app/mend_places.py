"""Where a maker changes what would free a plan: a table of the shop file, or a page of the window."""

from collections.abc import Sequence

from armorplan.schedule.claims import Claim, Kind
from armorplan.schedule.mends import Mend
from armorplan.schedule.naming import Naming, called
from armorplan.schedule.problem import Problem
from armorplan.schedule.shop_checks import kind_in

_KEYS = {
    Kind.OPEN: "hours",
    Kind.BATH: "its tray, or area_dm2,",
    Kind.CHANGE: "change_min, or write a second bath beside it,",
}
"""What is changed of a place, by what its claim asks."""


def where_words(problem: Problem, mends: Sequence[Mend], naming: Naming) -> str:
    """Return in sentences where mends are made, each place once."""
    return " ".join(dict.fromkeys(_where(problem, mend, naming) for mend in mends))


def _where(problem: Problem, mend: Mend, naming: Naming) -> str:
    claim = mend.claim
    match claim.kind:
        case Kind.HOURS | Kind.ABSENCE:
            return _hours(claim.of, naming)
        case Kind.HANDS:
            return _hands(mend, naming)
        case Kind.PLACES | Kind.OPEN | Kind.BATH | Kind.CHANGE:
            return f"Change {_key(claim, naming)} at {_table(claim.of, naming)}."
        case Kind.EARLIEST:
            return _date(problem, claim, naming)
        case _:
            return _at_bench(problem, claim)


def _hands(mend: Mend, naming: Naming) -> str:
    kind = kind_in(mend.claim.of)
    if (mend.who, kind) in naming.signed:
        return (
            f"At the bench: have '{kind}' signed off for {naming.of(mend.who)} as done alone "
            "(Ctrl+Alt+R, Signed off)."
        )
    keys = "beside" if (mend.who, kind) in naming.beside else "can or cannot"
    return f"Change {keys} at {_table(mend.who, naming)}."


def _at_bench(problem: Problem, claim: Claim) -> str:
    name = called(problem, claim.of)
    if claim.kind is Kind.HANGS:
        return f"At the bench: take it down, and tick {name} as done."
    if claim.kind is Kind.SHUT:
        return "At the bench: tell the air of those hours (Ctrl+Shift+H)."
    return (
        f"At the bench: choose {name} and look at its reasons (Ctrl+6); one that does not hold "
        "here is set aside or given other minutes in the pattern (Ctrl+E)."
    )


def _hours(who: str, naming: Naming) -> str:
    table = _table(who, naming)
    key = "appointments" if table.startswith("[wearers.") else "extra"
    return f"Write it under {key} at {table}."


def _key(claim: Claim, naming: Naming) -> str:
    if claim.kind is not Kind.PLACES:
        return _KEYS[claim.kind]
    if not _table(claim.of, naming).startswith("[racks"):
        return "count"
    return "shelf_dm2" if "shelf" in naming.of(claim.of).split() else "line_mm"


def _date(problem: Problem, claim: Claim, naming: Naming) -> str:
    bench = "At the bench: another day to begin, under Builds in hand (Ctrl+Shift+D)"
    job = next((job.id for job in problem.jobs if claim.of in job.activities), "")
    written = naming.written.get(f"builds.{job}")
    return f"{bench}, or from at {written}." if written else f"{bench}."


def _table(name: str, naming: Naming) -> str:
    return naming.written.get(name, f"{naming.of(name)} in the shop file")
