"""Relations as the reasons of an exercise: rule, sentence, numbers, steps and cautions."""

from collections.abc import Iterable

from armorplan.app.derived import Derived
from armorplan.app.drills.step_titles import step_title
from armorplan.app.reason_rows import number_words
from armorplan.practice.drill import Because, Met
from armorplan.practice.reason_names import REASON_NAMES
from armorplan.relations.index import first_and_members, is_plain, named_steps
from armorplan.relations.model import AfterAny, Relation, Together
from armorplan.rules.registry import rule_named

_OWN_NAME = "The maker's own"
_HINT_SENTENCES = 2


def because_of(derived: Derived, relation: Relation) -> Because:
    """Return the reason of a relation of this build, with its numbers and its steps' cautions."""
    reason = relation.reason
    steps = _in_order(derived, named_steps(relation))
    return Because(
        rule=reason.rule,
        name=rule_words(reason.rule),
        text=reason.text,
        force=reason.force,
        source=reason.source,
        # What is nought tells nothing: 'needs at least 0 mm'.
        numbers=tuple(number_words(number) for number in reason.numbers if number.value),
        exact=reason.numbers,
        steps=steps,
        cautions=cautions_of(derived, steps),
    )


def because_all(derived: Derived, relations: Iterable[Relation]) -> tuple[Because, ...]:
    """Return the reasons of relations in their order; what reads alike is told once."""
    told: dict[tuple[str, str], Because] = {}
    for relation in relations:
        because = because_of(derived, relation)
        told.setdefault((because.rule, because.text), because)
    return tuple(told.values())


def rule_words(code: str) -> str:
    """Return a rule's name for people."""
    rule = rule_named(code)
    return REASON_NAMES.get(code, _OWN_NAME) if rule is None else rule.name


def rules_of(relations: Iterable[Relation]) -> tuple[str, ...]:
    """Return the codes of the rules that relations follow from, sorted."""
    return tuple(sorted({relation.reason.rule for relation in relations}))


def met_by(kept: Iterable[Relation], broken: Iterable[Relation]) -> tuple[Met, ...]:
    """Return for each rule whether an answer kept it; one relation broken, and it is missed."""
    missed = {relation.reason.rule for relation in broken}
    rules = missed | {relation.reason.rule for relation in kept}
    return tuple(Met(rule=rule, kept=rule not in missed) for rule in sorted(rules))


def cautions_of(derived: Derived, steps: Iterable[str]) -> tuple[str, ...]:
    """Return the cautions of steps, each once, in the order of the steps."""
    found = (one for step in steps for one in derived.work.step(step).cautions)
    return tuple(dict.fromkeys(found))


def hint_of(relation: Relation) -> str:
    """Return why such relations hold, in words of the trade that name no step of this build.

    A relation of the maker's own has no words but its own.
    """
    rule = rule_named(relation.reason.rule)
    if rule is None:
        return relation.reason.text
    sentences = rule.why.replace("*", "").split(". ")
    return ". ".join(sentences[:_HINT_SENTENCES]).rstrip(".") + "."


def fault_words(derived: Derived, relation: Relation, step: str) -> str:
    """Return what is wrong with a step that breaks a relation where it stands, and why.

    Args:
        derived: the build.
        relation: what is broken.
        step: what comes too early, or between steps that are done in one go.
    """
    return f"{broken_words(derived, relation, step)} {relation.reason.text}"


def broken_words(derived: Derived, relation: Relation, step: str) -> str:
    """Return the same without why: what is wrong, where the reason is told beside it."""
    return f"'{title_of(derived, step)}' {_fault(derived, relation, step)}."


def _fault(derived: Derived, relation: Relation, step: str) -> str:
    if isinstance(relation, Together):
        if step in relation.of:
            return "has to be done in one go with the others of its group"
        return f"comes between {listed_steps(derived, relation.of)}, which are done in one go"
    if isinstance(relation, AfterAny):
        some = listed_steps(derived, relation.of - {step}, last=" or ")
        return f"comes too early: {some} has to be done first"
    if not is_plain(relation):
        return "comes too early"
    first, members = first_and_members(relation)
    others = members - {step}
    if others and step in members:
        last = f"before the last of {listed_steps(derived, members)}"
        return f"comes too early: '{title_of(derived, first)}' has to be done {last}"
    return f"comes too early: '{title_of(derived, first)}' has to be done first"


def title_of(derived: Derived, step: str) -> str:
    """Return what a step is called in an exercise."""
    return step_title(derived.work, derived.work.step(step))


def listed_steps(derived: Derived, steps: Iterable[str], *, last: str = " and ") -> str:
    """Return the titles of steps as a list in words, in the order in which they are done."""
    titles = [f"'{title_of(derived, step)}'" for step in _in_order(derived, steps)]
    return last.join(filter(None, (", ".join(titles[:-1]), *titles[-1:])))


def _in_order(derived: Derived, steps: Iterable[str]) -> tuple[str, ...]:
    place = derived.place
    return tuple(sorted(steps, key=lambda step: (place.get(step, 0), step)))
