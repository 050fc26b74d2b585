"""What only steers and the order does not keep: said as such, with what it gives way to."""

from collections.abc import Iterable, Mapping
from itertools import groupby

from armorplan.files.source import PATTERN_FILE
from armorplan.kernel.findings import Finding, Place, Severity
from armorplan.orders.giving_way import giving_way
from armorplan.orders.sequence import Sequence
from armorplan.relations.model import Relation

_MOST_TOLD = 2


def not_kept(sequence: Sequence, relations: Iterable[Relation]) -> dict[Relation, str]:
    """Return by relation that the order does not keep a sentence on what it gives way to."""
    found = giving_way(sequence.order, relations, sequence.dropped)
    return {relation: _sentence(against) for relation, against in found.items()}


def not_kept_findings(words: Mapping[Relation, str]) -> tuple[Finding, ...]:
    """Return a note for each of the maker's own relations that the order does not keep.

    What the pattern says once may hold for several pairs of steps: left and right, each rivet of a
    seam. It is told once, with how many.
    """
    own = sorted((r for r in words if r.reason.own_id), key=lambda r: r.reason.own_id)
    return tuple(
        _finding(own_id, [words[relation] for relation in same])
        for own_id, same in groupby(own, key=lambda r: r.reason.own_id)
    )


def _finding(own_id: str, sentences: list[str]) -> Finding:
    table = f"[relations.{own_id}]"
    times = "" if len(sentences) == 1 else f", for {len(sentences)} pairs of steps"
    return Finding(
        code="own-relation-not-kept",
        severity=Severity.NOTE,
        text=f"Your own relation '{own_id}' is not kept{times}. {sentences[0]}",
        remedy=f"Change {table} or take it out; give it the force 'would spoil' if it must hold, "
        "and what contradicts it is told in full.",
        about=(own_id,),
        place=Place(file=PATTERN_FILE, key=f"relations.{own_id}"),
    )


def _sentence(against: tuple[Relation, ...]) -> str:
    if not against:
        return "It gives way to what weighs more."
    texts = list(dict.fromkeys(relation.reason.text.rstrip(".") for relation in _weighty(against)))
    more = len(texts) - _MOST_TOLD
    rest = f" (and {more} more reason{'s' if more > 1 else ''})" if more > 0 else ""
    return f"It gives way to: {'. '.join(texts[:_MOST_TOLD])}{rest}."


def _weighty(against: tuple[Relation, ...]) -> list[Relation]:
    """Return what binds first; else as found, which is the order of a ring."""
    return sorted(against, key=lambda relation: not relation.reason.binds)
