"""The commands, their options, and what they answer to a mistake."""

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from pathlib import Path
from typing import NoReturn

from armorplan import __version__
from armorplan.cli.bring_options import add_bring
from armorplan.cli.cutlist_options import add_cutlist
from armorplan.cli.drill_options import add_drill
from armorplan.cli.dry_options import add_dry
from armorplan.cli.exits import CLEAN, FAULTY, UNREADABLE
from armorplan.cli.fit_options import add_fit
from armorplan.cli.learned_options import add_learned
from armorplan.cli.plan_options import add_asks, add_files
from armorplan.cli.promise_options import add_promise
from armorplan.cli.reached_options import add_reached
from armorplan.cli.recover_options import add_recover
from armorplan.cli.sheet_options import add_sheet
from armorplan.cli.strip_options import add_strip
from armorplan.cli.tray_size import tray_size
from armorplan.cli.why_options import add_why
from armorplan.kernel.errors import ArmorplanError, FaultyPatternError, UnreadableError

_LONGEST_S = 3600
_COMMANDS = (
    "check",
    "order",
    "plan",
    "promise",
    "needs",
    "cutlist",
    "fit",
    "sheet",
    "dry",
    "drill",
    "why",
    "reached",
    "recover",
    "learned",
    "rules",
    "bring",
    "strip",
    "window",
)
"""Each is a function of its name in a module ``<name>_command``."""
_ASIDE = ("-h", "--help", "--version")
_EPILOG = (
    "Without a command the window opens. Armour made with Armorplan is costume, not protective "
    "equipment. Labels, local codes and licensed practice rule over every caution it shows."
)


def _catalogues(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--catalogues",
        type=Path,
        metavar="DIR",
        help="your own catalogues, over the shipped ones (usual place: your data folder)",
    )


_PATTERN = "pattern folder, bare SVG drawing, or the name of a sample"
_OR_SHOP = f"{_PATTERN}; or a shop file or folder: then all builds it has in hand"


def _reading(
    command: argparse.ArgumentParser, *, nargs: str | None = None, meant: str = _PATTERN
) -> None:
    command.add_argument("pattern", type=Path, nargs=nargs, metavar="PATTERN", help=meant)
    _catalogues(command)
    command.add_argument("--shop", type=Path, metavar="FILE", help="shop file: people, hours, air")
    command.add_argument(
        "--with",
        dest="choices",
        action="append",
        default=[],
        metavar="OPTION=CHOICE",
        help="decide a build option otherwise than the pattern does",
    )
    command.add_argument(
        "--json", action="store_true", help="answer as JSON (schemas are shipped in resources)"
    )


def _ordering(command: argparse.ArgumentParser) -> None:
    _reading(command)
    command.add_argument(
        "--count", action="store_true", help="say how many orders keep all that binds"
    )
    command.add_argument(
        "--judge", type=Path, metavar="FILE", help="judge an order: one step id a line"
    )


def _window(command: argparse.ArgumentParser) -> None:
    command.add_argument("pattern", type=Path, nargs="?", metavar="PATTERN", help=_OR_SHOP)
    command.add_argument("--shop", type=Path, metavar="FILE", help="shop file: people, hours, air")
    _catalogues(command)
    command.add_argument("--build", metavar="ID", help="go on with a build of the workshop")
    command.add_argument("--workshop", type=Path, metavar="FILE", help="workshop file to work in")
    command.add_argument(
        "--write-here",
        action="store_true",
        help="take over writing from a window that works in the same workshop; it reads along then",
    )
    command.add_argument(
        "--who", metavar="NAME", help="who works in this window: hands are learned of each person"
    )


def _seconds(given: str) -> float:
    seconds = float(given)
    if not 0 <= seconds <= _LONGEST_S:
        raise argparse.ArgumentTypeError(f"{given} is not a number from 0 to {_LONGEST_S}")
    return seconds


def _planning(plan: argparse.ArgumentParser) -> None:
    _reading(plan, meant=_OR_SHOP)
    plan.add_argument(
        "--from", dest="start", metavar="INSTANT", help="start then, such as 2026-11-30T09:00"
    )
    plan.add_argument(
        "--workshop",
        type=Path,
        metavar="FILE",
        help="workshop file: plan in the air kept in it, and by what was learned there",
    )
    plan.add_argument(
        "--seconds",
        type=_seconds,
        default=10.0,
        metavar="N",
        help="look for a better plan so long",
    )


class _Parser(argparse.ArgumentParser):
    """Says what is wrong with the options in one line, and where they are explained."""

    def error(self, message: str) -> NoReturn:
        stop = "" if message.endswith((".", "?")) else "."
        self.exit(UNREADABLE, f"{self.prog}: {message}{stop} See {self.prog} --help.\n")


def _before_the_work(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the commands that tell what is bought, laid out and tried on."""
    needs = commands.add_parser("needs", help="list what a build uses up, and what it costs")
    _reading(needs)
    needs.add_argument("--csv", type=Path, metavar="FILE", help="write it as a table of figures")
    needs.add_argument(
        "--tray",
        type=tray_size,
        metavar="SIZE",
        help="reckon baths for this tray, in mm: 600x400, or with its depth 600x400x120",
    )
    cutlist = commands.add_parser(
        "cutlist", help="list what is cut of which leather, and lay it on the bed of a machine"
    )
    _reading(cutlist)
    add_cutlist(cutlist)
    sheet = commands.add_parser(
        "sheet", help="write the bench sheet: steps with boxes, drawings, reasons, on paper"
    )
    _reading(sheet, meant=_OR_SHOP)
    add_sheet(sheet)
    fit = commands.add_parser(
        "fit", help="lay-out and dry fit of each piece: rounds, pins in order, what to look at"
    )
    _reading(fit)
    add_fit(fit)


def _after_the_work(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the commands that are told how something went at the bench."""
    reached = commands.add_parser(
        "reached", help="learn a tool's reach: it did get to a joint at the bench, or it did not"
    )
    _reading(reached)
    add_reached(reached)
    recover = commands.add_parser(
        "recover", help="say what came too late or went wrong, and the cheapest ways back"
    )
    _reading(recover)
    add_recover(recover)
    _catalogues(add_learned(commands))
    drill = commands.add_parser(
        "drill", help="practise: an exercise made of a pattern, its answer judged with the reasons"
    )
    _reading(drill)
    add_drill(drill)


def _parser() -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = _Parser(
        prog="armorplan",
        description="Order, drying and bench planning for articulated leather armour.",
        epilog=_EPILOG,
    )
    parser.add_argument("--version", action="version", version=f"armorplan {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    check = commands.add_parser("check", help="say what is wrong in a pattern folder, all at once")
    _reading(check, nargs="?")
    check.add_argument(
        "--shapes",
        action="store_true",
        help="say what the shapes tell of each row, cover, bend, fastener and lame, and the reckoning",
    )
    order = commands.add_parser("order", help="list the steps in order, with the reasons")
    _ordering(order)
    plan = commands.add_parser("plan", help="plan the coming days around the drying")
    _planning(plan)
    add_files(plan)
    add_asks(plan)
    promise = commands.add_parser(
        "promise", help="say by when builds can be promised, how surely, and what costs most"
    )
    _planning(promise)
    add_promise(promise)
    _before_the_work(commands)
    dry = commands.add_parser("dry", help="say when a treatment is dry in this air")
    add_dry(dry)
    _catalogues(dry)
    why = commands.add_parser(
        "why", help="say whether one thing has to come before another, and why"
    )
    _reading(why)
    add_why(why)
    _after_the_work(commands)
    rules = commands.add_parser("rules", help="list the rules of the trade, or show one")
    rules.add_argument("code", nargs="?", metavar="CODE", help="show this rule's page")
    rules.add_argument("--json", action="store_true", help="answer as JSON")
    strip = commands.add_parser(
        "strip", help="read a test strip: where a leather keeps its length"
    )
    add_strip(strip)
    _catalogues(strip)
    bring = commands.add_parser("bring", help="make a pattern folder of an SVG or DXF drawing")
    add_bring(bring)
    window = commands.add_parser("window", help="open the window (what happens without a command)")
    _window(window)
    return parser


def _with_command(arguments: Sequence[str]) -> list[str]:
    """Put the window's command in where none is given: ``armorplan [PATTERN]``."""
    given = list(arguments)
    return given if given and given[0] in (*_COMMANDS, *_ASIDE) else ["window", *given]


def _handler(command: str) -> Callable[[argparse.Namespace], int]:
    # Each command is imported when it is asked for: 'check' must not wait for the solver or Qt.
    module = import_module(f"armorplan.cli.{command}_command")
    found: Callable[[argparse.Namespace], int] = getattr(module, command)
    return found


def run(arguments: Sequence[str]) -> int:
    """Run one command; return 0 for clean, 1 for faults found, 2 for what cannot be read."""
    chosen = _parser().parse_args(_with_command(arguments))
    try:
        return _handler(chosen.command)(chosen)
    except UnreadableError as error:
        for finding in error.findings:
            print(finding, file=sys.stderr)  # noqa: T201 - the command line speaks here
        return FAULTY if isinstance(error, FaultyPatternError) else UNREADABLE
    except ArmorplanError as error:
        print(error, file=sys.stderr)  # noqa: T201
        return UNREADABLE
    except BrokenPipeError:
        # The reader closed early (``| head``); Python would complain again when it flushes.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return CLEAN
