"""``armorplan drill``: an exercise made of a pattern; its answer judged, with the reasons."""

import shlex
from argparse import Namespace
from collections.abc import Iterator
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from armorplan.app.derived import Derived
from armorplan.app.drills.naming import NO_ORDER
from armorplan.app.drills.reasoning import why_asked
from armorplan.app.drills.setting import judged, solved
from armorplan.app.drills.source import DrillSource
from armorplan.cli.drill_answer import answer_typed, reason_typed
from armorplan.cli.drill_asked import as_numbered, asked_plainly, exercise_of, none_like
from armorplan.cli.drill_mark import check_shown, mark_of
from armorplan.cli.drill_paper import check_paper, write_progress, write_worksheet
from armorplan.cli.drill_report import (
    ASKED_WHY,
    DrillReport,
    exercise_row,
    judged_row,
    progress_row,
    solved_row,
    why_row,
)
from armorplan.cli.drill_words import (
    exercise_lines,
    judged_lines,
    letters_shown,
    progress_lines,
    reason_lines,
    solved_lines,
    why_lines,
)
from armorplan.cli.exits import CLEAN, FAULTY
from armorplan.cli.in_shop import derived_for
from armorplan.cli.reading import say, say_json, tell
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import Answer, Asked, Drill, Judged, Solved, WhyAsked
from armorplan.solving.keeper import SolverKeeper

if TYPE_CHECKING:
    from armorplan.cli.drill_person import Practice


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    """An exercise with all that was asked of it.

    Attributes:
        asked: what makes it again, its number for a seed.
        reason: id of the reason that was chosen; empty: none was.
        kept: what became of the result, in a sentence.
    """

    drill: Drill
    asked: Asked
    answer: Answer = ()
    judged: Judged | None = None
    why: WhyAsked | None = None
    reason: str = ""
    solved: Solved | None = None
    kept: str = ""

    @property
    def asks_why(self) -> bool:
        """Tell whether the second question is still open: the reason is not told before it."""
        return self.why is not None and not self.reason and self.solved is None


def drill(chosen: Namespace) -> int:
    """Print an exercise, or what an answer is worth; return 0, or 1 where the answer is wrong.

    Raises:
        ArmorplanError: there is no such exercise, or what was typed is no answer to it.
    """
    _check(chosen)
    derived = derived_for(_without_missing_workshop(chosen))
    with _practice(chosen, derived) as practice, SolverKeeper() as keeper:
        if chosen.progress and practice is not None:
            return _tell_progress(chosen, derived, practice)
        source = DrillSource(derived=derived, solve=keeper.solve)
        if chosen.pdf:
            return write_worksheet(chosen, derived, source, practice)
        told = _answered(chosen, source, _exercise(chosen, source, practice), practice)
    if chosen.json:
        say_json(_report(chosen, derived, told, practice))
    else:
        for line in _lines(chosen, told):
            say(line)
    return FAULTY if told.judged is not None and not told.judged.right else CLEAN


def _practice(
    chosen: Namespace, derived: Derived
) -> "AbstractContextManager[Practice] | AbstractContextManager[None]":
    if chosen.who is None:
        return nullcontext(None)
    # What is kept takes a while to load: an exercise for nobody does not wait for it.
    from armorplan.cli.drill_person import practice_of

    return practice_of(chosen, derived)


def _check(chosen: Namespace) -> None:
    """Refuse options that want another one beside them, or stand in its way."""
    if chosen.why is not None and not chosen.answer:
        raise ArmorplanError("--why is asked behind an answer: give --answer as well.")
    if chosen.progress and chosen.who is None:
        raise ArmorplanError("Say whose progress: --who NAME.")
    if chosen.progress and (chosen.answer or chosen.solution):
        raise ArmorplanError("--progress stands alone: ask for it without --answer or --solution.")
    if chosen.workshop is not None and chosen.who is None:
        raise ArmorplanError("Say for whom results are kept in the workshop: --who NAME.")
    if chosen.who is not None and chosen.answer and not _is_named(chosen):
        raise ArmorplanError(
            "Say which exercise this answers: --kind and --seed, as they were printed with it."
        )
    check_paper(chosen)


def _is_named(chosen: Namespace) -> bool:
    return chosen.kind is not None and chosen.seed is not None


def _without_missing_workshop(chosen: Namespace) -> Namespace:
    """Return what was chosen; a workshop file that is begun here tells nothing of the shop yet."""
    is_there = chosen.workshop is None or chosen.workshop.exists()
    return chosen if is_there else Namespace(**{**vars(chosen), "workshop": None})


def _exercise(chosen: Namespace, source: DrillSource, practice: "Practice | None") -> Drill:
    asked = asked_plainly(source.derived, chosen)
    by_memory = practice is not None and chosen.seed is None and not (asked.part or asked.focus)
    if practice is None or not by_memory:
        return exercise_of(source, asked, kind_is_asked=chosen.kind is not None)
    coming = practice.desk.coming(
        practice.person,
        kind=chosen.kind,
        level=chosen.level,
        piece=asked.piece,
        solve=source.solve,
    )
    found = coming()
    if found is None:
        raise none_like(source, asked, kind_is_asked=chosen.kind is not None)
    return found


def _answered(
    chosen: Namespace, source: DrillSource, exercise: Drill, practice: "Practice | None"
) -> _Told:
    check_shown(exercise, chosen.shown)
    told = _Told(drill=exercise, asked=as_numbered(source.derived, exercise.asked))
    if chosen.answer:
        told = _judged(chosen, source, told)
    if chosen.solution:
        told = replace(told, solved=solved(source, exercise))
    if practice is not None and told.judged is not None:
        told = replace(told, kept=_kept(chosen, told, told.judged, practice))
    return told


def _kept(chosen: Namespace, told: _Told, worth: Judged, practice: "Practice") -> str:
    from armorplan.cli.drill_person import Tried

    tried = Tried(
        drill=told.drill,
        answer=told.answer,
        judged=worth,
        hint=chosen.hint or chosen.solution,
        why_right=told.why is not None and told.reason == told.why.right,
        seconds=chosen.seconds,
    )
    return practice.keep(tried)


def _judged(chosen: Namespace, source: DrillSource, told: _Told) -> _Told:
    answer = answer_typed(told.drill, chosen.answer)
    worth = judged(source, told.drill, answer)
    why = why_asked(source, told.drill, worth) if worth.right else None
    reason = reason_typed(why, chosen.why) if why and chosen.why is not None else ""
    return replace(told, answer=answer, judged=worth, why=why, reason=reason)


def _command(chosen: Namespace, told: _Told, answer: str, *more: str) -> str:
    """Return the command line that answers this very exercise; its rule is not told in it."""
    asked = told.asked
    words = ["armorplan", "drill", str(chosen.pattern), "--kind", asked.kind.value]
    words += ["--seed", str(asked.seed), "--level", str(int(asked.level))]
    for option, value in (
        ("--piece", asked.piece),
        ("--part", asked.part),
        ("--shop", chosen.shop),
        ("--catalogues", chosen.catalogues),
        ("--who", chosen.who),
        ("--workshop", chosen.workshop),
    ):
        words += [option, str(value)] if value else []
    for choice in chosen.choices:
        words += ["--with", choice]
    words += ["--hint"] if chosen.hint else []
    words += ["--shown", mark_of(told.drill)]
    return f"{shlex.join((*words, '--answer'))} {answer}{''.join(f' {one}' for one in more)}"


def _lines(chosen: Namespace, told: _Told) -> Iterator[str]:
    if told.judged is None:
        shown = _command(chosen, told, letters_shown(told.drill))
        yield from exercise_lines(told.drill, hint=chosen.hint, answer_with=shown)
    elif told.asks_why:
        yield ASKED_WHY
        yield from _why_lines(chosen, told)
    else:
        yield from judged_lines(told.drill, told.judged)
        yield from _why_lines(chosen, told)
    if told.solved is not None:
        yield from solved_lines(told.drill, told.solved)
    if told.kept:
        yield ""
        yield told.kept


def _why_lines(chosen: Namespace, told: _Told) -> Iterator[str]:
    if told.why is None:
        if chosen.why is not None:
            yield ""
            yield "No reason is asked for here: that comes behind a right answer, where one decides."
    elif told.reason:
        yield from reason_lines(told.why, told.reason)
    else:
        letters = " ".join(chosen.answer)
        yield from why_lines(told.why, _command(chosen, told, letters, "--why", "A"))


def _report(
    chosen: Namespace, derived: Derived, told: _Told, practice: "Practice | None"
) -> DrillReport:
    is_told = (told.judged or told.solved) is not None and not told.asks_why
    return DrillReport(
        pattern=derived.pattern.name,
        person=practice.name if practice else "",
        exercise=exercise_row(told.drill, told.asked, hint=chosen.hint, is_told=is_told),
        answer_with=_command(chosen, told, letters_shown(told.drill)),
        judged=judged_row(told.drill, told.answer, told.judged, is_told=is_told)
        if told.judged
        else None,
        why=why_row(told.why, told.reason) if told.why else None,
        solved=solved_row(told.drill, told.solved) if told.solved else None,
        kept=told.kept,
    )


def _tell_progress(chosen: Namespace, derived: Derived, practice: "Practice") -> int:
    if not derived.order:
        tell(NO_ORDER.format(derived.pattern.name))
    return (write_progress if chosen.pdf else _say_progress)(chosen, derived, practice)


def _say_progress(chosen: Namespace, derived: Derived, practice: "Practice") -> int:
    found = practice.desk.progress(practice.person)
    if chosen.json:
        say_json(
            DrillReport(
                pattern=derived.pattern.name,
                person=practice.name,
                progress=progress_row(found),
            )
        )
        return CLEAN
    for line in progress_lines(found):
        say(line)
    return CLEAN
