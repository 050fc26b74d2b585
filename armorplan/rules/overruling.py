"""What a maker sets aside: the relation stays in sight with the maker's note, and holds no more."""

from dataclasses import replace
from difflib import get_close_matches

from armorplan.kernel.findings import Finding, Place, Severity
from armorplan.pattern.own_work import Overruling
from armorplan.relations.implying import implying
from armorplan.relations.model import OWN, AfterAny, Before, BeforeAll, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.own_names import StepNames

NEVER = "drying-starts-at-once"
"""The one rule nobody sets aside: nobody can stop leather from drying."""


def overruled(
    relations: tuple[Relation, ...], facts: Facts
) -> tuple[tuple[Relation, ...], tuple[Finding, ...]]:
    """Return the relations with those marked that the maker set aside, and what is wrong with that.

    A relation that must be kept stays in force while it is set aside without a note.
    """
    left, findings = list(relations), list[Finding]()
    names = StepNames(facts)
    for overruling in facts.assembly.pattern.overrulings:
        hit = _hit(relations, overruling, names)
        trouble = _trouble(overruling, [relations[at] for at in hit], relations)
        if trouble is not None:
            findings.append(trouble)
            continue
        for at in hit:
            reason = replace(left[at].reason, overruled=True, note=overruling.note)
            left[at] = replace(left[at], reason=reason)
    return tuple(left), tuple(findings)


def _hit(relations: tuple[Relation, ...], over: Overruling, names: StepNames) -> list[int]:
    """Return where the relations stand that an overruling means."""
    codes = (over.rule, f"{OWN}{over.rule}")
    first, other = names.with_drying(over.step), names.with_drying(over.other)
    found = []
    for at, relation in enumerate(relations):
        if relation.reason.rule in codes:
            firsts, others = _ends(relation)
            fits_first = not over.step or bool(firsts & first)
            if fits_first and (not over.other or bool(others & other)):
                found.append(at)
    # Who says that it need not be done before the last of a row, says so of any part of the row.
    return sorted({*found, *implying(relations, found)})


def _ends(relation: Relation) -> tuple[frozenset[str], frozenset[str]]:
    """Return the step that an overruling calls its first, and those it calls the others."""
    match relation:
        case Before(first=first, then=then):
            return frozenset((first,)), frozenset((then,))
        case BeforeAll(first=step, of=of) | AfterAny(then=step, of=of):
            return frozenset((step,)), of
        case _:
            return relation.of, relation.of


def _trouble(
    over: Overruling, hit: list[Relation], relations: tuple[Relation, ...]
) -> Finding | None:
    if over.rule == NEVER:
        return _finding(
            over,
            "overruled-drying",
            Severity.ERROR,
            "Drying begins when the wet work ends, whatever anyone writes.",
            "Take this out; to shorten a drying, change its minutes in the catalogue.",
        )
    if not hit:
        codes = sorted({relation.reason.rule.removeprefix(OWN) for relation in relations})
        near = get_close_matches(over.rule, codes, n=3)
        known = over.rule in codes
        return _finding(
            over,
            "overruled-nothing",
            Severity.WARNING,
            f"'{over.id}' sets the rule '{over.rule}' aside{_where(over)}, and there it says nothing.",
            "Name its steps as the reason names them, or leave them out to mean all."
            if known
            else f"Rules at work here that are called alike: {', '.join(near) or 'none'}. Where a "
            "choice leaves out what the rule speaks of, let it stand: it does no harm.",
        )
    if not over.note.strip() and any(relation.reason.force.binds for relation in hit):
        return _finding(
            over,
            "overruled-without-note",
            Severity.ERROR,
            f"'{over.id}' sets aside what must be kept, and gives no reason: {hit[0].reason.text}",
            "Write why as its note; until then the rule holds.",
        )
    return None


def _where(over: Overruling) -> str:
    named = [f"'{name}'" for name in (over.step, over.other) if name]
    return f" for {' and '.join(named)}" if named else ""


def _finding(over: Overruling, code: str, severity: Severity, text: str, remedy: str) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        text=text,
        remedy=remedy,
        about=(over.id,),
        place=Place(file="pattern.toml", key=f"overruled.{over.id}"),
    )
