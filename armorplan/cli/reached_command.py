"""``armorplan reached``: what a trial at the bench tells of a tool's reach."""

from argparse import Namespace
from dataclasses import dataclass
from pathlib import Path
from textwrap import wrap

from armorplan.app.kept_reach import KeptReach, change_words, keep_reach, kept_words
from armorplan.app.learned_reach import LearnedReach, learned_reach
from armorplan.app.tried_reach import Tried
from armorplan.app.turned_orders import turned_by, turned_words
from armorplan.cli.exits import CLEAN
from armorplan.cli.in_shop import derived_for
from armorplan.cli.reading import say, say_json
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError
from armorplan.store.places import own_catalogues_path

_WIDE = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachedReport:
    """What ``--json`` answers; ``kept`` is where it was written, ``None`` where it was not."""

    pattern: str
    learned: LearnedReach
    kept: str | None


def reached(chosen: Namespace) -> int:
    """Print what follows from a trial, and keep it where that is asked; return 0.

    Raises:
        UnreadableError: the pattern or the maker's own catalogues have faults.
        ArmorplanError: joint or tool are not known, or it cannot be kept.
    """
    if chosen.keep and not chosen.tool:
        message = "Say which tool's reach to keep: --tool ID, as in tools.toml. Nothing was kept."
        raise ArmorplanError(message)
    derived = derived_for(chosen)
    tried = Tried(
        joint=chosen.joint,
        did_reach=chosen.answer == "yes",
        tool=chosen.tool or "",
        after=None if chosen.after is None else tuple(chosen.after),
    )
    learned = learned_reach(derived, tried)
    folder: Path = chosen.catalogues or own_catalogues_path()
    writes = chosen.keep and learned.becomes_mm is not None
    kept = keep_reach(folder, learned, SystemClock().now().date()) if writes else None
    if chosen.json:
        path = None if kept is None else str(kept.path)
        say_json(ReachedReport(pattern=derived.pattern.name, learned=learned, kept=path))
        return CLEAN
    flips = turned_words(turned_by(derived, learned), derived)
    told = filter(None, (learned.held, learned.follows, learned.against))
    for text in (*told, *flips, *_ending(chosen, learned, kept, folder)):
        say("\n".join(wrap(text, _WIDE, break_long_words=False, break_on_hyphens=False)))
    return CLEAN


def _ending(
    chosen: Namespace, learned: LearnedReach, kept: KeptReach | None, folder: Path
) -> tuple[str, ...]:
    if kept is not None:
        return kept_words(kept, learned.tool)
    if learned.becomes_mm is None:
        return ("Nothing was kept.",) if chosen.keep else ()
    line = change_words(learned, folder)
    return (f"To have it reckoned with, {line}, or add --keep with --tool {learned.tool}.",)
