"""What exercises about steps say: choices, what is done, and breaks in the order they are told."""

from collections.abc import Collection, Iterable, Iterator, Sequence

from armorplan.app.derived import Derived
from armorplan.app.drills.learning import Learned
from armorplan.app.drills.reasons import title_of
from armorplan.app.drills.step_sets import MOST_NAMED, PLAIN_SOURCE
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.judging import judge_order
from armorplan.practice.drill import Choice, Drill
from armorplan.relations.checking import Break
from armorplan.relations.model import Relation
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered, part_name

_NUMBERS = (
    *("no", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)

_LASTS = 5
"""Of so many parts or groups of them it is told what was done last; of those worked at last."""


def choices_of(derived: Derived, steps: Iterable[str]) -> tuple[Choice, ...]:
    """Return steps as choices, with the parts and joints that are lit with them."""
    found = [derived.work.step(step) for step in steps]
    return tuple(
        Choice(
            id=step.id,
            title=title_of(derived, step.id),
            detail=_detail(derived, step, found),
            steps=(step.id,),
            parts=step.parts,
            joints=step.joints,
        )
        for step in found
    )


def _detail(derived: Derived, step: Step, others: Iterable[Step]) -> str:
    """Return what a title leaves open: what is prepared, and which of the parts asked about it is of."""
    if step.kind is StepKind.PREPARE_STRAP:
        return step.detail
    is_bath = derived.work.drying_of(step.id) is not None or step.after is not None
    if not is_bath or len(step.parts) <= MOST_NAMED:
        return ""
    asked = {part for other in others if len(other.parts) <= MOST_NAMED for part in other.parts}
    return _among_words(derived, asked & {*step.parts}, asked - {*step.parts}) if asked else ""


def _among_words(derived: Derived, among: Collection[str], others: Collection[str]) -> str:
    """Return which of the parts asked about are among those of a bath; the fewer are named."""
    if not among:
        return "None of the other parts asked about here is among them."
    if not others:
        return "All the other parts asked about here are among them."
    if len(among) <= len(others):
        return f"Among them: {_parts_words(derived, among)}."
    return f"Among them all the other parts asked about here but {_parts_words(derived, others)}."


def _parts_words(derived: Derived, parts: Collection[str]) -> str:
    named = [
        lowered(part_name(derived.assembly, p.id)) for p in derived.assembly.parts if p.id in parts
    ]
    return " and ".join(filter(None, (", ".join(named[:-1]), *named[-1:])))


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


def state_words(derived: Derived, done: Sequence[str], steps: Sequence[str]) -> Iterator[str]:
    """Yield what is done before an exercise: how much, and last on each of the parts it is about.

    Args:
        derived: the build.
        done: what is done, in order.
        steps: the steps of the exercise, of which none is.
    """
    if not done:
        yield "Nothing is done yet."
        return
    yield "One step is done already." if len(done) == 1 else f"{len(done)} steps are done already."
    yield from _lasts_words(derived, done, _parts_of(derived, steps))
    yield f"None of these {number_of(len(steps))} is done yet; all else that they wait for is done."


def _lasts_words(derived: Derived, done: Sequence[str], parts: Iterable[str]) -> Iterator[str]:
    """Yield what was done last on each of some parts, and on which of them nothing was."""
    place = {part: at for at, step in enumerate(done) for part in derived.work.step(step).parts}
    by_last: dict[int, list[str]] = {}
    for part in parts:
        by_last.setdefault(place.get(part, -1), []).append(part)
    told = sorted(by_last, reverse=True)[:_LASTS]
    many = [at for at in told if len(by_last[at]) > MOST_NAMED]
    rest = many[-1] if many and 1 < len(told) == len(by_last) else None
    for at in sorted(told, key=lambda one: one == rest):
        named = "all the other parts" if at == rest else _parts_words(derived, by_last[at])
        if at < 0:
            yield f"On {named} nothing is done yet."
        else:
            yield f"Done last on {named}: '{title_of(derived, done[at])}'."


def _parts_of(derived: Derived, steps: Iterable[str]) -> tuple[str, ...]:
    """Return the parts that steps are about; those of a whole bath only where there are no others."""
    touched = [derived.work.step(step).parts for step in steps]
    narrow = [parts for parts in touched if len(parts) <= MOST_NAMED] or touched
    about = {part for parts in narrow for part in parts}
    return tuple(part.id for part in derived.assembly.parts if part.id in about)


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
