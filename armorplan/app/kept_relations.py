"""The relations a running build was started with, as they stand in the air of today."""

from dataclasses import dataclass, replace

from armorplan.kernel.findings import Finding, Severity
from armorplan.relations.index import is_plain, named_steps
from armorplan.relations.model import AfterAny, Relation

_Same = tuple[str, type, str, frozenset[str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stands:
    """The relations of a build, and how many the rules of today would add and drop."""

    relations: tuple[Relation, ...]
    added: int
    gone: int


def standing_relations(fresh: tuple[Relation, ...], kept: tuple[Relation, ...] | None) -> Stands:
    """Return the kept relations with the minutes and words of those the rules find today.

    What comes before what, and how strongly, stays as the build was started. How long leather
    stays damp or takes to dry follows the air of today. ``None`` is kept of a build that only now
    begins: what the rules find today is what it is started with.
    """
    if kept is None:
        return Stands(relations=fresh, added=0, gone=0)
    today: dict[_Same, list[Relation]] = {}
    for relation in reversed(fresh):
        today.setdefault(_same(relation), []).append(relation)
    found, gone = [], 0
    for relation in kept:
        matches = today.get(_same(relation))
        gone += not matches
        found.append(_told_today(relation, matches.pop()) if matches else relation)
    return Stands(
        relations=tuple(found), added=sum(len(left) for left in today.values()), gone=gone
    )


def _same(relation: Relation) -> _Same:
    """Return what two relations share that say the same of the same steps."""
    head = ""
    if is_plain(relation):
        head = relation.first
    elif isinstance(relation, AfterAny):
        head = relation.then
    return relation.reason.rule, type(relation), head, named_steps(relation)


def _told_today(kept: Relation, fresh: Relation) -> Relation:
    reason = replace(
        fresh.reason,
        force=kept.reason.force,
        overruled=kept.reason.overruled,
        note=kept.reason.note,
    )
    return replace(fresh, reason=reason)


def kept_findings(stands: Stands) -> tuple[Finding, ...]:
    """Return what to say where the rules of today would have other relations."""
    if not (stands.added or stands.gone):
        return ()
    return (
        Finding(
            code="relations-kept",
            severity=Severity.NOTE,
            text=f"This build keeps the {len(stands.relations)} relations it was started with; "
            f"the rules of today would add {stands.added} and drop {stands.gone}.",
            remedy="Nothing has to be done: a running build is never reordered silently.",
        ),
    )
