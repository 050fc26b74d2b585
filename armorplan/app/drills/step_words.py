"""What exercises about steps say: choices, what is done, and breaks in the order they are told."""

from collections.abc import Iterable, Sequence

from armorplan.app.derived import Derived
from armorplan.app.drills.learning import Learned
from armorplan.app.drills.reasons import title_of
from armorplan.app.drills.step_sets import PLAIN_SOURCE
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.judging import judge_order
from armorplan.practice.drill import Choice, Drill
from armorplan.relations.checking import Break
from armorplan.relations.model import Relation

_NUMBERS = (
    *("no", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)


def choices_of(derived: Derived, steps: Iterable[str]) -> tuple[Choice, ...]:
    """Return steps as choices, with the parts and joints that are lit with them."""
    found = map(derived.work.step, steps)
    return tuple(
        Choice(id=s.id, title=s.title, steps=(s.id,), parts=s.parts, joints=s.joints)
        for s in found
    )


def learned_of(derived: Derived, drill: Drill) -> Learned:
    """Return the right orders of an exercise's choices, as it was made with them."""
    place = derived.place
    steps = sorted((one.id for one in drill.choices), key=place.__getitem__)
    learned = Learned(derived, drill.done, steps)
    learned.settle()
    return learned


def title_for(derived: Derived, topic: str) -> str:
    """Return what an exercise is called: the build and what of it."""
    name = derived.pattern.name
    return name if topic == name else f"{name}: {topic}"


def done_words(derived: Derived, done: Sequence[str]) -> str:
    """Return what is done before an exercise, in a sentence."""
    if not done:
        return "Nothing is done yet."
    last = title_of(derived, done[-1])
    if len(done) == 1:
        return f"One step is done already: '{last}'."
    return f"{len(done)} steps are done already, the last of them '{last}'."


def number_of(count: int, *, big: bool = False) -> str:
    """Return a small number in words, a large one in digits."""
    said = _NUMBERS[count] if count < len(_NUMBERS) else f"{count:,}"
    return said.capitalize() if big else said


def others_words(count: int, *, is_known: bool) -> str:
    """Return how many other orders are right, beside one; empty where there is none.

    Args:
        count: right orders in all.
        is_known: no more of them can turn out wrong.
    """
    if count <= 1:
        return ""
    if not is_known:
        return "Other orders are right as well."
    verb = "order is" if count == 2 else "orders are"  # noqa: PLR2004 - one other
    return f"{number_of(count - 1, big=True)} other {verb} right as well."


def breaks_told(learned: Learned, order: Sequence[str], main: str) -> tuple[Break, ...]:
    """Return what an order breaks, as it comes; at one step what is rather told first.

    That is the rule an exercise is about, and then what nobody sees by himself.
    """
    steps = learned.few.steps
    found = judge_order(order, steps, learned.few.relations).breaks
    return tuple(sorted(found, key=lambda each: (each.at, *weighed(each.relation, main))))


def weighed(relation: Relation, main: str) -> tuple[bool, bool]:
    """Return a key that sorts the rule an exercise is about first, what is plain to see last."""
    return relation.reason.rule != main, relation.reason.source == PLAIN_SOURCE


def one_each(relations: Iterable[Relation]) -> tuple[Relation, ...]:
    """Return the first relation of each rule."""
    found: dict[str, Relation] = {}
    for relation in relations:
        found.setdefault(relation.reason.rule, relation)
    return tuple(found.values())


def checked(drill: Drill, answer: Sequence[str]) -> None:
    """Refuse what is no answer.

    Raises:
        ArmorplanError: nothing was answered, or something that is no choice.
    """
    known = {one.id for one in drill.choices}
    if not answer:
        raise ArmorplanError(f"Nothing was answered. Choose {_what(drill)}.")
    odd = next((one for one in answer if one not in known), None)
    if odd is not None:
        raise ArmorplanError(f"'{odd}' is none of the choices. Choose {_what(drill)}.")


def _what(drill: Drill) -> str:
    return f"{drill.form.value}, of the {number_of(len(drill.choices))} steps"
