"""A rule's page of help, as Markdown, made from the rule itself."""

from armorplan.relations.model import Force
from armorplan.rules.model import Example, Rule

_FORCE = {
    Force.CANNOT: "It cannot be done the other way round.",
    Force.SPOIL: "The other way round would spoil work.",
    Force.EASIER: "The other way round can be done, and costs time.",
    Force.USUAL: "It is usual practice.",
}


def rule_page(rule: Rule) -> str:
    """Return a rule's page: why it holds, how strongly, and small cases with what follows."""
    lines = [
        f"# {rule.name}",
        "",
        rule.why,
        "",
        f"**{_FORCE[rule.force]}**",
        "",
        "## Small cases",
        "",
    ]
    lines += [line for example in rule.examples for line in _case(example)]
    lines += ["", f"Source: {rule.source}.", "", f"To set it aside, its code is `{rule.code}`."]
    return "\n".join(lines)


def _case(example: Example) -> list[str]:
    if not example.expects:
        return [f"- {example.title}: nothing has to wait."]
    pairs = (f"`{a}` before `{b}`" for a, b in sorted(example.expects))
    return [f"- {example.title}: {'; '.join(pairs)}."]
