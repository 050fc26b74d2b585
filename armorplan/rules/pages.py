"""A rule's page of help, as Markdown, made from the rule itself and its small cases."""

from collections.abc import Iterable, Iterator

from armorplan.assembly.expand import assemble
from armorplan.pattern.pattern import Pattern
from armorplan.relations.model import AfterAny, Before, BeforeAll, Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Example, Rule
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.steps.deriving import derive_steps
from armorplan.workshop.air import Room

FORCES = {
    Force.CANNOT: "It cannot be done the other way round.",
    Force.SPOIL: "The other way round would spoil work.",
    Force.EASIER: "The other way round can be done, and costs time.",
    Force.USUAL: "It is usual practice, and can be done otherwise.",
}
MENDING = "## When it has already happened"
CASES = "## Small cases"


def rule_page(rule: Rule) -> str:
    """Return a rule's page: why it holds, how strongly, how to mend it, and small cases."""
    sections = (
        f"# {rule.name}",
        rule.why,
        f"**{FORCES[rule.force]}**",
        MENDING,
        rule.mend,
        CASES,
        "\n".join(_case(rule, example) for example in rule.examples),
        f"Source: {rule.source}.",
        f"To set it aside, write its code `{rule.code}` into the pattern, with a note why.",
    )
    return "\n\n".join(sections)


def example_facts(pattern: Pattern) -> Facts:
    """Return what a rule may know of a small case, with the shelf of the examples."""
    shelf, room = sketch_shelf(), Room()
    assembly = assemble(pattern, shelf, build="case")
    work = derive_steps(assembly, shelf, room)
    return Facts(assembly=assembly, work=work, shelf=shelf, room=room)


def _case(rule: Rule, example: Example) -> str:
    facts = example_facts(example.pattern)
    told = dict.fromkeys(_told(facts, rule.derive(facts)))
    return f"- {example.title}: {'; '.join(told) or 'the rule says nothing'}."


def _told(facts: Facts, relations: Iterable[Relation]) -> Iterator[str]:
    """Yield each relation as one says it, its steps by their titles."""

    def title(step: str) -> str:
        return f"*{facts.work.step(step).title}*"

    def joined(steps: frozenset[str], word: str) -> str:
        return f" {word} ".join(title(step.id) for step in facts.work.steps if step.id in steps)

    for relation in relations:
        match relation:
            case Before(first=first, then=then):
                yield f"{title(first)}, then {title(then)}"
            case BeforeAll(first=first, of=of) if len(of) > 1:
                yield f"{title(first)}, then the last of {joined(of, 'and')}"
            case BeforeAll(first=first, of=of):
                yield f"{title(first)}, then {joined(of, 'and')}"
            case AfterAny(then=then, of=of):
                yield f"{joined(of, 'or')}, then {title(then)}"
            case _:
                yield f"{joined(relation.of, 'and')} in one go"
