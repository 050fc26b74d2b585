"""What to mind where a step is done late or in a tight place: what is held aside, what its rules say."""

from collections.abc import Collection, Iterator

from armorplan.orders.recovery.checking import is_shut
from armorplan.orders.recovery.model import Bar
from armorplan.orders.recovery.moves import parts_words
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.rules.registry import all_rules
from armorplan.steps.model import Step
from armorplan.steps.naming import lowered, part_name

HELD_ASIDE = frozenset(("open-before-cover",))
"""Rules of a cover that still turns on one fastener, and can be swung out of the way."""
_COVER = "the cover"
_SWUNG = 2
"""Where so many fasteners of a cover are set, opening one leaves it on the place still."""


def mend_of(scene: RecoveryScene, bar: Bar) -> str:
    """Return what the rule's own page says for when it has already happened."""
    code = scene.rule_of(bar)
    return next((rule.mend for rule in all_rules() if rule.code == code), "")


def held_aside(scene: RecoveryScene, step: Step, stands: Collection[str]) -> tuple[str, ...]:
    """Return the names of the parts that lie over a step's place and can be held aside."""
    assembly, found = scene.facts.assembly, dict[str, None]()
    for bar in _covering(scene, step, stands):
        for laying in sorted(bar.of):
            covers = [part for part in scene.step(laying).parts if part not in step.parts]
            found |= dict.fromkeys(lowered(part_name(assembly, part)) for part in covers)
    return tuple(found)


def minded(scene: RecoveryScene, step: Step, stands: Collection[str]) -> tuple[str, ...]:
    """Return what to mind where a step is done as things stand, as its rules say, covers named."""
    return tuple(dict.fromkeys(_minded(scene, step, _shut(scene, step, stands), stands)))


def minded_once_open(scene: RecoveryScene, step: Step, stands: Collection[str]) -> tuple[str, ...]:
    """Return what to mind once one fastener of a cover is out: it still turns on another."""
    covering = _covering(scene, step, stands)
    few = len({laying for bar in covering for laying in bar.of}) < _SWUNG
    return () if few else tuple(dict.fromkeys(_minded(scene, step, covering, stands)))


def _shut(scene: RecoveryScene, step: Step, stands: Collection[str]) -> list[Bar]:
    return [bar for bar in scene.bars_of(step.id) if is_shut(bar, frozenset(stands))]


def _covering(scene: RecoveryScene, step: Step, stands: Collection[str]) -> list[Bar]:
    shut = _shut(scene, step, stands)
    return [bar for bar in shut if scene.rule_of(bar) in HELD_ASIDE]


def _minded(
    scene: RecoveryScene, step: Step, bars: list[Bar], stands: Collection[str]
) -> Iterator[str]:
    names = parts_words(held_aside(scene, step, stands))
    for bar in bars:
        mend = mend_of(scene, bar)
        if mend:
            is_cover = scene.rule_of(bar) in HELD_ASIDE and names
            yield mend.replace(_COVER, f"the {names}") if is_cover else mend
