"""'Do this earlier next time': what the bench taught becomes an own relation of the pattern.

It goes into the pattern's own file, comments kept, and the version is raised, once for each build.
The build at the bench keeps the pattern that it was begun with.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import chain, count
from pathlib import Path

from armorplan.app.corrections_versions import noted
from armorplan.app.derived import Derived
from armorplan.app.draft import Draft, Refused, refused
from armorplan.app.drafting import Home, OpenDraft, save, save_copy
from armorplan.assembly.model import Side
from armorplan.kernel.findings import Finding
from armorplan.ledger.builds import BuildRecord
from armorplan.relations.index import RelationIndex
from armorplan.relations.model import Force
from armorplan.rules.own_names import step_name
from armorplan.steps.model import Step
from armorplan.steps.naming import lowered

EARLIER = "earlier_"
"""What the ids of such relations begin with in the pattern."""
_NOT_IN_ID = re.compile(r"[^a-z0-9]+")
_TABLE = "relations"


@dataclass(frozen=True, slots=True, kw_only=True)
class Earlier:
    """A step that is done before another one from the next build on.

    Attributes:
        id: of the relation in the pattern.
        first, then: as a maker names steps; ``then`` comes later.
        text: the same in a sentence.
        force: how strongly it holds: as lightly as the order keeps it.
    """

    id: str
    first: str
    then: str
    text: str
    force: Force = Force.USUAL


@dataclass(frozen=True, slots=True, kw_only=True)
class Taught:
    """A draft that a build taught, and what it was taught; not written yet."""

    opened: OpenDraft
    earlier: Earlier


def could_have_waited(derived: Derived, done: Sequence[str], step: str) -> str | None:
    """Return the last step done before another one that nothing asks to come before it.

    Args:
        derived: the build.
        done: what was done, in the order it was done.
        step: what came too late; where it is not done yet, all that is done was before it.

    Returns:
        ``None`` where all that was done before it has to be.
    """
    before = done[: done.index(step)] if step in done else done
    needed = _needed_before(derived.index, step)
    work = derived.work
    for one in reversed(before):
        if one not in needed and work.has(one) and work.step(one).attended:
            return one
    return None


def _needed_before(index: RelationIndex, step: str) -> frozenset[str]:
    """Return all that binding relations put before a step, one after the other, and itself."""
    todo, found = [step], {step}
    while todo:
        number = index.number.get(todo.pop())
        for at in () if number is None else index.by_member[number]:
            first = index.steps[index.firsts[at]]
            alone = len(index.members[at]) == 1 and index.relations[at].reason.binds
            if alone and first not in found:
                found.add(first)
                todo.append(first)
    return frozenset(found)


def teach(
    opened: OpenDraft, build: BuildRecord, derived: Derived, *, step: str, before: str
) -> Taught | Refused:
    """Return the pattern's draft with the relation in it, or why it is not taken.

    This derives the pattern anew: never from the window's own thread.

    Args:
        opened: the pattern's draft, as ``drafting.draft_of`` reads it, or as it is edited.
        build: the build that taught it; the version is raised unless one of it did that.
        derived: what follows for that build.
        step: id of the step that should be done earlier.
        before: id of the step before which it should stand.
    """
    earlier = _earlier(opened.draft, derived.work.step(step), derived.work.step(before))
    known = _told_already(opened.draft, earlier)
    if known is not None:
        return known
    made = _written(opened.draft, build, earlier)
    if isinstance(made, Draft) and not _keeps(made, earlier):
        # It would give way to other wishes: a maker who says so wants it kept.
        earlier = replace(earlier, force=Force.SPOIL)
        made = _written(opened.draft, build, earlier)
    if isinstance(made, Refused):
        return _why_not(earlier, made)
    return Taught(opened=OpenDraft(draft=made, home=opened.home), earlier=earlier)


def keep(taught: Taught, *, into: Path | None = None) -> Home | Finding:
    """Write what was taught into the pattern's folder, or a copy into another one.

    Returns:
        Where it lies now, or why nothing was written.
    """
    draft, home = taught.opened.draft, taught.opened.home
    return save_copy(draft, into) if into else save(draft, home)


def earlier_rows(draft: Draft) -> tuple[Earlier, ...]:
    """Return what builds taught the pattern, as it stands in its file."""
    found = []
    for name in draft.entry(_TABLE, ""):
        told = draft.entry(_TABLE, name)
        first, then = told.get("first"), told.get("then")
        if name.startswith(EARLIER) and isinstance(first, str) and isinstance(then, str):
            why, force = str(told.get("why", "")), str(told.get("force", Force.USUAL))
            known = Force(force) if force in set(Force) else Force.USUAL
            found.append(Earlier(id=name, first=first, then=then, text=why, force=known))
    return tuple(found)


def _earlier(draft: Draft, step: Step, before: Step) -> Earlier:
    first, then = step_name(step), step_name(before)
    if first == then or {step.side, before.side} == {Side.LEFT, Side.RIGHT}:
        first, then = _sided_name(step), _sided_name(before)
    name = EARLIER + _NOT_IN_ID.sub("_", first.lower()).strip("_")
    taken = draft.entry(_TABLE, "")
    free = (one for one in chain([name], (f"{name}_{at}" for at in count(2))) if one not in taken)
    return Earlier(
        id=next(free),
        first=first,
        then=then,
        text=f"The bench taught it: '{step.title}' before '{before.title}'.",
    )


def _sided_name(step: Step) -> str:
    return "/".join(step.id.split("/")[-2:])


def _told_already(draft: Draft, earlier: Earlier) -> Refused | None:
    """Return a refusal where the pattern says the same, or just the opposite, already."""
    pair = (earlier.first, earlier.then)
    if earlier.first == earlier.then:
        return refused("A step cannot come before itself.", "Choose another step.")
    for row in earlier_rows(draft):
        if (row.first, row.then) == pair:
            return refused(
                f"The pattern says so already, in [relations.{row.id}].",
                "Nothing has to be done.",
                code="told-already",
            )
        if (row.then, row.first) == pair:
            return refused(
                f"An earlier build taught just the opposite, in [relations.{row.id}]: {row.text}",
                "Take that one out first.",
                code="opposite-told",
            )
    return None


def _written(draft: Draft, build: BuildRecord, earlier: Earlier) -> Draft | Refused:
    raised = draft.raised_above(build.pattern_version)
    if isinstance(raised, Refused):
        return raised
    values: dict[str, str] = {
        "first": earlier.first,
        "then": earlier.then,
        "force": earlier.force.value,
        "why": earlier.text,
    }
    noting = noted(raised.in_haste(), changed=(earlier.text,), builds=(build.id,))
    if isinstance(noting, Refused):
        return noting
    return replace(noting, is_hasty=raised.is_hasty).add_entry(_TABLE, earlier.id, values)


def _keeps(draft: Draft, earlier: Earlier) -> bool:
    """Tell whether the order of a draft keeps a relation everywhere it holds."""
    derived = draft.derived
    if derived is None:
        return True
    return not any(relation.reason.own_id == earlier.id for relation in derived.not_kept)


def _why_not(earlier: Earlier, refusal: Refused) -> Refused:
    """Return a refusal that first says what was asked for."""
    asked = f"'{earlier.first}' cannot stand before '{earlier.then}': "
    return refused(asked + lowered(refusal.words), code="cannot-be-earlier")


def words(taught: Taught) -> str:
    """Say what was taught, and from when it holds."""
    version = taught.opened.draft.entry("pattern", "").get("version")
    earlier = taught.earlier
    binds = " It binds, since the order would not keep it else." if earlier.force.binds else ""
    return (
        f"From the next build on {earlier.first} comes before {earlier.then} "
        f"(version {version} of the pattern).{binds} This build stays as it is."
    )
