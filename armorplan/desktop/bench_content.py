"""What the bench view shows at one moment, as one frozen value: of a step, or of a page of a walk."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, tzinfo
from enum import Enum, auto

from PySide6.QtCore import QCoreApplication

from armorplan.app.bench_card import BenchCard, RowMark
from armorplan.app.rows import BenchState, Selection
from armorplan.desktop.bench_verbs import Verb, verb_word
from armorplan.desktop.bench_words import (
    caution_text,
    facts_of,
    next_text,
    progress_text,
    unbroken,
)

LEAF_KEY, LONGER_KEY = "M", "L"
"""Shows all there is to read of the step; says that the step takes a quarter of an hour longer."""


class Weight(Enum):
    """How much a step closes off: each has rivet heads of its own beside the words."""

    NOTHING = auto()
    """Open rings: all stays as open as it was."""
    CLOSES = auto()
    """Full heads: something is out of reach from then on."""
    FOR_GOOD = auto()
    """Heads with a cross cut into them: it cannot be taken back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Commit:
    """What the next blow closes off, in one line."""

    text: str = ""
    weight: Weight = Weight.NOTHING


def usual_words() -> dict[Verb, str]:
    """Return what the plates say at a step."""
    return {verb: verb_word(verb) for verb in Verb}


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchContent:
    """All that is shown but timers and the time.

    Attributes:
        facts: lines below the title; the first ``kept`` of them have to be seen.
        share: of the build that is done, from 0 to 1.
        coming: what comes next.
        plan: when the build is done by the plan, or what moved that.
        row: the row of steps that this one belongs to, ``here`` among them.
        lit: what is lit in the picture; ``numbers``: of joints in it, id and number.
        words: what each verb does now; one that is missing does nothing.
        is_going: the first verb ends something that runs.
        is_whole: letters take the whole width, without the picture.
        is_steady: letters are as large as on the page before and after.
    """

    title: str
    facts: tuple[str, ...] = ()
    kept: int = 0
    caution: str = ""
    commit: Commit = Commit()
    state: BenchState | None = None
    where: str = ""
    progress: str = ""
    share: float = 0.0
    coming: str = ""
    plan: str = ""
    row: tuple[RowMark, ...] = ()
    here: str = ""
    lit: Selection = field(default_factory=Selection)
    numbers: tuple[tuple[str, int], ...] = ()
    words: Mapping[Verb, str] = field(default_factory=usual_words)
    is_going: bool = False
    is_whole: bool = False
    is_steady: bool = False


def step_content(
    card: BenchCard, lit: Selection, commit: Commit, now: datetime, zone: tzinfo
) -> BenchContent:
    """Return what is shown of a step."""
    facts, kept = facts_of(card, LONGER_KEY)
    running = card.state is BenchState.RUNNING
    words = usual_words() | ({Verb.BEGIN: _say("Pause")} if running else {})
    return BenchContent(
        title=unbroken(card.title),
        facts=facts,
        kept=kept,
        caution=caution_text(card, LEAF_KEY),
        commit=commit,
        state=card.state,
        where=card.where,
        progress=progress_text(card),
        share=card.done_count / card.all_count if card.all_count else 0.0,
        coming=next_text(card, now, zone),
        row=card.row,
        here=card.step,
        lit=lit,
        words=words,
        is_going=running,
    )


def rest_content(text: str, where: str) -> BenchContent:
    """Return what is shown where there is no step for hands."""
    usual = usual_words()
    words = {verb: usual[verb] for verb in (Verb.AMISS, Verb.TAKE_BACK)}
    return BenchContent(title=text, where=where, words=words)


def _say(text: str) -> str:
    return QCoreApplication.translate("bench_content", text)
