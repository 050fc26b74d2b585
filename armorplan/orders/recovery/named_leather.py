"""Holes, rows and parts of a build by the names a maker writes; where a name will not do, what is meant."""

from collections.abc import Iterable, Iterator

from armorplan.assembly.model import Assembly, SidedJoint, SidedPart
from armorplan.kernel.errors import ArmorplanError
from armorplan.steps.naming import lowered, part_name

SidedHole = tuple[str, str]
_OFFERED = 12


def part_named(assembly: Assembly, name: str) -> str:
    """Return the sided id of a part.

    Raises:
        ArmorplanError: there is none, or it is made on both sides.
    """
    alike = _parts(assembly, name)
    if len(alike) == 1:
        return alike[0].id
    if alike:
        raise _on_both(name, (part.id for part in alike))
    offered = _listed(part.id for part in assembly.parts)
    raise ArmorplanError(f"No part of this build is called '{name}'. Parts: {offered}.")


def _parts(assembly: Assembly, name: str) -> list[SidedPart]:
    exact = [part for part in assembly.parts if part.id == name]
    return exact or [part for part in assembly.parts if part.part.id == name]


def row_named(assembly: Assembly, name: str) -> tuple[SidedJoint, ...]:
    """Return the joints of a row.

    Raises:
        ArmorplanError: the name is that of something else, of nothing, or of a row of both sides.
    """
    alike = [s for s in assembly.seams if s.id == name] or [
        s for s in assembly.seams if s.seam.id == name
    ]
    if len(alike) > 1:
        raise _on_both(name, (seam.id for seam in alike))
    if alike:
        return tuple(assembly.joint(joint) for joint in alike[0].joints)
    raise ArmorplanError(_no_row(assembly, name))


def _no_row(assembly: Assembly, name: str) -> str:
    parts = _parts(assembly, name)
    joints = [j.id for part in parts for j in assembly.joints_of(part.id)]
    what = "a part" if parts else "a joint"
    joints += [j.id for j in assembly.joints if name in (j.id, j.joint.id)]
    through = [seam.id for seam in map(assembly.seam_of, joints) if seam is not None]
    every = _listed(seam.id for seam in assembly.seams)
    if not (parts or joints):
        return f"No row of this build is called '{name}'. Rows: {every}."
    if not through:
        return f"'{name}' is {what}, and in no row. Rows of this build: {every}."
    return f"'{name}' is {what}, not a row. Write its row: {_listed(through)}."


def holes_named(assembly: Assembly, name: str) -> tuple[SidedHole, ...]:
    """Return the hole of a name as PART/HOLE, or as the hole alone where that is enough.

    A hole of a part with a side may carry the side as well, as a drawing names it.

    Raises:
        ArmorplanError: there is none, or there is one on both sides; it says what is meant.
    """
    part, mark, hole = name.rpartition("/")
    found = [
        (each.id, drilled.id)
        for each in (_parts(assembly, part) if mark else assembly.parts)
        for drilled in each.part.holes
        if hole in (drilled.id, each.side.tag(drilled.id))
    ]
    if len(found) > 1:
        raise _on_both(name, (f"{p}/{h}" for p, h in found))
    if not found:
        raise ArmorplanError(_no_hole(assembly, name))
    return tuple(found)


def _no_hole(assembly: Assembly, name: str) -> str:
    part, mark, hole = name.rpartition("/")
    whole = _parts(assembly, name)
    there = whole or (_parts(assembly, part) if mark else [])
    offered = _listed(f"{each.id}/{drilled.id}" for each in there for drilled in each.part.holes)
    if whole and offered:
        return f"'{name}' is a part, not a hole. Write which hole of it: {offered}."
    if whole:
        return f"'{name}' is a part, and it has no hole."
    if there:
        said = sentence_start(part_name(assembly, there[0].id))
        return f"{said} has no hole '{hole}'. " + (f"Its holes: {offered}." if offered else "")
    drilled = (f"{each.id}/{one.id}" for each in assembly.parts for one in each.part.holes)
    such = next(drilled, "PART/HOLE")
    return (
        f"No hole, joint or row of this build is called '{name}'. Write a hole as PART/HOLE, "
        f"such as {such}."
    )


def joint_named(assembly: Assembly, name: str) -> SidedJoint | None:
    """Return the joint of a name, or ``None``.

    Raises:
        ArmorplanError: it is made on both sides.
    """
    alike = [j for j in assembly.joints if j.id == name] or [
        j for j in assembly.joints if j.joint.id == name
    ]
    if len(alike) > 1:
        raise _on_both(name, (joint.id for joint in alike))
    return alike[0] if alike else None


def no_hole_in(name: str, joint: SidedJoint) -> ArmorplanError:
    """Return what to say of a joint through no hole of leather."""
    kind = joint.joint.kind.value
    return ArmorplanError(f"'{name}' ({kind}) goes through no hole. Name a row or a hole.")


def not_dyed(assembly: Assembly, part: str, dyed: Iterable[str]) -> ArmorplanError:
    """Return what to say of a wrong colour on a part that no dye touches."""
    others = _listed(dict.fromkeys(dyed))
    said = lowered(part_name(assembly, part))
    return ArmorplanError(
        f"No dye touches {said} in this build, so it has no colour that could be wrong. "
        + (f"Parts that are dyed: {others}." if others else "Nothing is dyed.")
    )


def sentence_start(words: str) -> str:
    """Return words with a capital letter in front, as a sentence begins; the rest stays."""
    return f"{words[:1].upper()}{words[1:]}"


def _on_both(name: str, ids: Iterable[str]) -> ArmorplanError:
    told = " or ".join(dict.fromkeys(ids))
    return ArmorplanError(f"'{name}' is made on both sides. Name which: {told}.")


def _listed(ids: Iterable[str]) -> str:
    return ", ".join(_some(list(dict.fromkeys(ids))))


def _some(ids: list[str]) -> Iterator[str]:
    yield from ids[:_OFFERED]
    if len(ids) > _OFFERED:
        yield f"and {len(ids) - _OFFERED} more"
