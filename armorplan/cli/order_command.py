"""``armorplan order``: the steps in order with their reasons; or the judgement of an order."""

from argparse import Namespace
from dataclasses import replace
from pathlib import Path

from armorplan.app.derived import Derived
from armorplan.app.effort_report import effort_words, proved_by
from armorplan.app.judged_order import judged_order
from armorplan.app.reports import OrderReport, order_report
from armorplan.cli.exits import CLEAN, FAULTY
from armorplan.cli.in_shop import derived_for
from armorplan.cli.judged_words import judged_lines
from armorplan.cli.order_file import read_order
from armorplan.cli.order_words import order_lines
from armorplan.cli.reading import say, say_json
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import SolverLostError
from armorplan.relations.counting import count_orders
from armorplan.relations.weighing import binding


def order(chosen: Namespace) -> int:
    """Print the order, or judge the one in a file; return 0, or 1 for no order or a wrong one."""
    derived = derived_for(chosen)
    if chosen.judge:
        return _judge(derived, chosen.judge, as_json=chosen.json)
    if chosen.count:
        return _count(derived, as_json=chosen.json)
    report = order_report(_proved(derived), SystemClock())
    if chosen.json:
        say_json(report)
    else:
        _say_order(report, derived)
    return CLEAN if report.steps else FAULTY


def _proved(derived: Derived) -> Derived:
    """Return the same, the order of least effort settled by the solver where it is not yet proved."""
    effort = derived.effort
    if effort is None or effort.found.proved:
        return derived
    from armorplan.solving.keeper import SolverKeeper

    try:
        with SolverKeeper() as keeper:
            return replace(derived, effort=proved_by(effort, keeper.solve))
    except SolverLostError:
        return derived


def _count(derived: Derived, *, as_json: bool) -> int:
    found = count_orders(derived.index.steps, binding(derived.relations))
    if as_json:
        # Beyond 2^53 most readers of JSON round a number: as text it stays what it is.
        say_json({"orders": str(found.number), "exact": found.exact})
    else:
        say(f"Orders of these {len(derived.index.steps)} steps that keep all that binds: {found}.")
    return CLEAN if found.number else FAULTY


def _say_order(report: OrderReport, derived: Derived) -> None:
    for finding in report.findings:
        say(str(finding))
    for line in order_lines(report, derived):
        say(line)
    if report.effort is not None:
        say("")
        say(effort_words(report.effort))


def _judge(derived: Derived, file: Path, *, as_json: bool) -> int:
    judged = judged_order(derived, read_order(file, derived))
    if as_json:
        say_json(judged)
    else:
        for line in judged_lines(judged, {step.id: step.title for step in derived.work.steps}):
            say(line)
    return CLEAN if judged.right else FAULTY
