"""What is typed of an exercise on the command line."""

from argparse import ArgumentParser, ArgumentTypeError
from pathlib import Path

from armorplan.app.practice_asked import MOST_EXERCISES, MOST_NUMBER
from armorplan.practice.drill import DrillKind, Level

_PAPERS = ("a4", "letter")
_SHORT_LEVELS = {"strap": Level.STRAP, "harness": Level.HARNESS}
_MOST_SECONDS = 24 * 3600.0


def _seed(given: str) -> int:
    if not (given.strip().isascii() and given.strip().isdecimal()) or int(given) > MOST_NUMBER:
        message = f"'{given}' is no whole number from 0 to {MOST_NUMBER}"
        raise ArgumentTypeError(message)
    return int(given)


def _kind(given: str) -> DrillKind:
    # The words for kinds would load what exercises are made from: they are asked for by their ids.
    said = given.strip().casefold().replace(" ", "-")
    found = next((kind for kind in DrillKind if kind.value == said), None)
    if found is None:
        kinds = ", ".join(kind.value for kind in DrillKind)
        message = f"'{given}' is no kind of exercise. Kinds: {kinds}"
        raise ArgumentTypeError(message)
    return found


def _level(given: str) -> Level:
    said = given.strip().casefold().replace("-", " ")
    for level in Level:
        if said in (str(int(level)), level.words, level.words.partition(" ")[2]):
            return level
    if said in _SHORT_LEVELS:
        return _SHORT_LEVELS[said]
    levels = ", ".join(f"{int(level)} ({level.words})" for level in Level)
    message = f"'{given}' is no level. Levels: {levels}"
    raise ArgumentTypeError(message)


def _seconds(given: str) -> float:
    try:
        seconds = float(given)
    except ValueError:
        seconds = -1.0
    if not 0 <= seconds <= _MOST_SECONDS:
        message = f"'{given}' is no number of seconds from 0 to {_MOST_SECONDS:g}"
        raise ArgumentTypeError(message)
    return seconds


def _count(given: str) -> int:
    if not (given.strip().isascii() and given.strip().isdecimal()) or not (
        1 <= int(given) <= MOST_EXERCISES
    ):
        message = f"'{given}' is no number of exercises from 1 to {MOST_EXERCISES}"
        raise ArgumentTypeError(message)
    return int(given)


def add_drill(command: ArgumentParser) -> None:
    """Give the command its own arguments, behind those that read a pattern."""
    _which(command)
    _answered(command)
    _on_paper(command)
    who = command.add_argument_group("somebody's practice")
    who.add_argument(
        "--who",
        metavar="NAME",
        help="keep how the first try goes for this person; without --kind and --seed, ask what is "
        "worth asking next",
    )
    who.add_argument(
        "--workshop", type=Path, metavar="FILE", help="workshop file in which results are kept"
    )
    who.add_argument(
        "--progress", action="store_true", help="say which reasons are mastered, shaky and unseen"
    )
    who.add_argument(
        "--seconds", type=_seconds, default=0.0, metavar="N", help="how long the answer took"
    )


def _which(command: ArgumentParser) -> None:
    which = command.add_argument_group("which exercise")
    kinds = ", ".join(kind.value for kind in DrillKind)
    which.add_argument(
        "--kind", type=_kind, metavar="KIND", help=f"{kinds}; without it the seed chooses"
    )
    which.add_argument(
        "--seed",
        type=_seed,
        metavar="N",
        help="the same number makes the same exercise (usual: 1)",
    )
    which.add_argument(
        "--level",
        type=_level,
        metavar="LEVEL",
        help="how much at once: 1 or 'one strap', 2 or 'a row' (usual), 3 or 'a piece', 4 or 'the "
        "whole harness'",
    )
    which.add_argument("--piece", metavar="ID", help="only of this piece")
    which.add_argument("--part", metavar="ID", help="only of this part or row")
    which.add_argument(
        "--focus",
        metavar="RULE",
        help="one that needs the reason of this rule, if there is one: its code or its name; the "
        "number that is printed holds it, and does not give it away",
    )


def _answered(command: ArgumentParser) -> None:
    answered = command.add_argument_group("answering it")
    answered.add_argument(
        "--answer",
        nargs="+",
        metavar="LETTER",
        help="judge an answer: letters as they are printed, such as C A B, or with times A=09:15",
    )
    answered.add_argument(
        "--shown",
        metavar="MARK",
        help="mark of the exercise as it was shown, which is printed with it: no other one is judged "
        "in its place",
    )
    answered.add_argument(
        "--why",
        metavar="LETTER",
        help="behind a right answer: which reason decides it",
    )
    answered.add_argument(
        "--hint", action="store_true", help="show the reason that decides it before the answer"
    )
    answered.add_argument("--solution", action="store_true", help="show a right answer, and why")


def _on_paper(command: ArgumentParser) -> None:
    paper = command.add_argument_group("on paper")
    paper.add_argument(
        "--pdf",
        type=Path,
        metavar="FILE",
        help="write a worksheet: exercises of each kind in turn, or of --kind, the answers behind; "
        "with --progress the page of progress",
    )
    paper.add_argument(
        "--count", type=_count, metavar="N", help="how many exercises on it (usual: 8)"
    )
    paper.add_argument(
        "--paper", type=str.lower, choices=_PAPERS, metavar="SIZE", help="a4 (usual) or letter"
    )
