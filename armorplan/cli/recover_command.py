"""``armorplan recover``: what came too late or went wrong, and the ways back."""

from argparse import Namespace
from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace

from armorplan.app.derived import Derived
from armorplan.app.named_work import named_work
from armorplan.app.told_mistakes import told_mistake
from armorplan.app.way_back_rows import WaysBack
from armorplan.app.ways_back import recovery_scene, ways_back
from armorplan.cli.exits import CLEAN, FAULTY
from armorplan.cli.in_shop import derived_for
from armorplan.cli.reading import say, say_json
from armorplan.cli.recover_words import recover_lines
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.recovery.amiss import amiss_of, closed_steps, implied_by
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.steps.model import SETS_JOINT, StepKind

_MEND = (
    "Say what stands, or what went wrong: armorplan recover PATTERN --done ROW --left STEP, or "
    "--mistake row-off:ROW:3."
)


_PUT_ON = (StepKind.THREAD, StepKind.MOUNT)
_OFFERED = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class RecoverReport:
    """What ``--json`` answers."""

    pattern: str
    done: tuple[str, ...]
    left: tuple[str, ...]
    ways_back: WaysBack


def recover(chosen: Namespace) -> int:
    """Print the ways back; return 0, or 1 where something is wrong and nothing leads back.

    Raises:
        ArmorplanError: nothing is named, or something that the build has not.
    """
    derived = derived_for(chosen)
    if not (_names(chosen.done) or chosen.mistake):
        raise ArmorplanError(_MEND)
    mistakes = tuple(told_mistake(derived, written) for written in chosen.mistake)
    done, left = (_steps(derived, given) for given in (chosen.done, chosen.left))
    scene = recovery_scene(derived)
    told = done | closed_steps(scene, mistakes)
    both = sorted(told & left)
    if both:
        title = derived.work.step(both[0]).title
        raise ArmorplanError(f"'{title}' is named as done and as left out. Name it once.")
    if told and not (left or chosen.only or _of_leather(mistakes)) and _of_closed(mistakes):
        raise ArmorplanError(_left_out_words(derived, scene, told))
    # Names are looked up before anything is searched, so that a slip of the pen is told at once.
    implied = implied_by(scene, amiss_of(scene, mistakes), told)
    whole = bool(mistakes) and not left
    usual = None if chosen.only else left
    stands = scene.standing(told | implied, left=usual, whole=whole)
    found = ways_back(derived, stands, mistakes)
    found = replace(found, taken=_titles(derived, stands - told))
    if chosen.json:
        say_json(
            RecoverReport(
                pattern=derived.pattern.name,
                done=tuple(sorted(told)),
                left=tuple(sorted(left)),
                ways_back=found,
            )
        )
    else:
        for line in recover_lines(found, all_ways=chosen.all):
            say(line)
    is_wrong = any(not one.harder for one in found.stuck) or bool(found.mistakes)
    return FAULTY if is_wrong and not found.ways else CLEAN


def _titles(derived: Derived, steps: Iterable[str]) -> tuple[str, ...]:
    ordered = sorted(steps, key=lambda one: derived.place.get(one, 0))
    return tuple(derived.work.step(one).title for one in ordered)


def _steps(derived: Derived, given: Iterable[str]) -> frozenset[str]:
    return frozenset(
        step
        for name in _names(given)
        for some in named_work(derived, name).by_side.values()
        for step in some
    )


def _names(given: Iterable[str]) -> list[str]:
    return [name.strip() for one in given for name in one.split(",") if name.strip()]


def _of_closed(mistakes: Iterable[Mistake]) -> bool:
    return any(one.kind is MistakeKind.CLOSED for one in mistakes)


def _of_leather(mistakes: Iterable[Mistake]) -> bool:
    return any(one.kind is not MistakeKind.CLOSED for one in mistakes)


def _left_out_words(derived: Derived, scene: RecoveryScene, told: Collection[str]) -> str:
    """Ask what was left out, with the last steps that should have come before."""
    held = {step.id for step in derived.work.of_kind(*SETS_JOINT, *_PUT_ON)}
    before = scene.standing(told, left=(), whole=True) - set(told)
    ordered = sorted(held & before or before, key=lambda one: derived.place.get(one, 0))
    such = ", ".join(one.split("/", 3)[-1] for one in ordered[-_OFFERED:])
    named = f" Before it come {such}." if such else ""
    return f"Closed before what? Name what was left out with --left STEP.{named}"
