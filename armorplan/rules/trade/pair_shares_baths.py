"""Left and right go into the same bath and share its waiting."""

from collections.abc import Iterator

from armorplan.kernel.units import span_words
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_bath, sketch_part, sketch_treatment
from armorplan.steps.model import Step, StepKind
from armorplan.steps.surface_work import is_dipped

_GROUND = Ground(code="pair-shares-baths", force=Force.USUAL)
_BATHS = (StepKind.CASE, StepKind.HARDEN, StepKind.CLEAN, *COATS)


def _how(step: Step) -> str:
    if step.kind is StepKind.CASE:
        return "are damped one after the other"
    if step.kind is StepKind.HARDEN or is_dipped(step):
        return "go into the same bath, one after the other"
    return "are done one after the other, from the same bottle and with the same cloths"


def _both_in_window(facts: Facts, one: Step, other: Step) -> bool:
    """Tell whether what two casings serve is done, one after the other, while both are damp."""
    if one.serves is None or other.serves is None:
        return True
    served = [facts.work.step(one.serves), facts.work.step(other.serves)]
    window = facts.window_min(one, served[0])
    if window is None or window[1] is None:
        return True
    return window[0] + sum(step.minutes for step in served) <= window[1]


def _watched_apart(facts: Facts, one: Step, other: Step) -> bool:
    """Tell whether each has a watch of its own after the bath: then it is watched to its end first."""
    return facts.watch_over(one) != facts.watch_over(other)


def _derive(facts: Facts) -> Iterator[Relation]:
    for pair in facts.pairs(*_BATHS):
        one, other = pair
        if one.batch_key != other.batch_key or not _both_in_window(facts, one, other):
            continue
        if _watched_apart(facts, one, other):
            continue
        dry = facts.work.drying_of(one.id)
        shares = f", and share {span_words(dry.minutes)} of drying" if dry else ""
        yield _GROUND.together(
            frozenset((one.id, other.id)),
            f"Left and right {_how(one)}{shares}: so they come out alike.",
            about=(*one.parts, *other.parts),
        )


_CUFF = sketch_part("cuff")

RULE = Rule(
    code=_GROUND.code,
    name="A pair shares its baths and its waiting",
    why="Dye from one mixing, laid on in one go, gives both sides one colour. And both dry in the "
    "same hours: a pair takes more work than a single piece, and hardly more days. Not so what is "
    "turned and wiped as soon as it has dripped, where both would not be dipped in time for it.",
    mend="Lay both sides beside each other in daylight when they are dry. A paler one takes another "
    "thin coat; a darker one cannot be helped, so bring the other up to it.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="An oiled cuff made left and right",
            pattern=sketch(
                sketch_part("cuff"), treatments=(sketch_treatment("oil", "cuff"),), mirrored=True
            ),
            expects=frozenset({("oil/oil.left.coat-1 | oil/oil.right.coat-1", "")}),
        ),
        Example(
            title="A tooled cuff made left and right is cased together where both can be tooled damp",
            pattern=sketch(sketch_part("cuff", tooling="lantern"), mirrored=True),
            expects=frozenset({("case/cuff.left.tool | case/cuff.right.tool", "")}),
        ),
        Example(
            title="A cuff dipped in what has to be turned before its like is out of the bath",
            pattern=sketch(_CUFF, treatments=(sketch_bath("lacquer", "cuff"),), mirrored=True),
        ),
        Example(
            title="An oiled cuff made once",
            pattern=sketch(sketch_part("cuff"), treatments=(sketch_treatment("oil", "cuff"),)),
        ),
    ),
)
