"""A mistake as it is written on the command line: ``row-off:left_row:3``."""

from collections.abc import Iterable
from dataclasses import replace
from math import isfinite

from armorplan.app.derived import Derived
from armorplan.app.named_work import named_work
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.recovery.mistakes import WHICH_WAY, Mistake, MistakeKind, kind_of

_MOST_MM = 500.0
_HOW = "Write KIND:WHAT or KIND:WHAT:HOW, such as wrong-hole:left_row_3:2.5 or row-off:left_row:3:edge."
_COLOURS = {"darker": True, "lighter": False}
_ALSO = {"two-lefts": MistakeKind.TWO_ALIKE, "two-rights": MistakeKind.TWO_ALIKE}


def told_mistake(derived: Derived, written: str) -> Mistake:
    """Return the mistake that is written.

    Raises:
        ArmorplanError: it names no kind, nothing it is about, or a distance that is none.
    """
    slug, _, rest = written.strip().partition(":")
    kind = kind_of(slug.strip()) or _ALSO.get(slug.strip())
    if kind is None:
        known = ", ".join(each.slug for each in MistakeKind)
        raise ArmorplanError(f"'{slug}' is no kind of mistake. Kinds: {known}. {_HOW}")
    what, _, hows = rest.partition(":")
    names = [each.strip() for each in what.split(",") if each.strip()]
    if not names:
        raise ArmorplanError(f"'{written}' does not say what is wrong. {_HOW}")
    about = tuple(one for name in names for one in _about(derived, kind, name))
    told = Mistake(kind=kind, about=about)
    for how in hows.split(":"):
        told = _with(told, how.strip())
    return told


def _about(derived: Derived, kind: MistakeKind, name: str) -> tuple[str, ...]:
    if kind is MistakeKind.CLOSED:
        return tuple(step for some in named_work(derived, name).by_side.values() for step in some)
    wanted = name.casefold()
    assembly = derived.assembly
    parts = [p.id for p in assembly.parts if p.part.name.casefold() == wanted]
    seams = [s.id for s in assembly.seams if s.seam.name.casefold() == wanted]
    if kind is MistakeKind.ROW_OFF:
        seams += [s.id for s in assembly.seams if s.seam.id == name and s.id != name]
        return _one_of(seams, name)
    joints = [j.id for j in assembly.joints if j.joint.id == name and j.id != name]
    return _one_of(joints if kind is MistakeKind.WRONG_HOLE else parts, name)


def _one_of(found: list[str], name: str) -> tuple[str, ...]:
    """Return what a name stands for: itself where it is an id already."""
    if len(found) > 1:
        told = " or ".join(found)
        raise ArmorplanError(f"'{name}' is made on both sides. Name which: {told}.")
    return tuple(found) or (name,)


def _with(told: Mistake, how: str) -> Mistake:
    """Return a mistake with one word more of how: a distance in mm, which way, which colour."""
    ways = WHICH_WAY.get(told.kind, {})
    if not how:
        return told
    if told.kind is MistakeKind.WRONG_COLOUR:
        return replace(told, darker=_darker(how))
    if how in ways:
        return replace(told, way=how)
    return replace(told, mm=_mm(how, ways))


def _darker(how: str) -> bool:
    if how not in _COLOURS:
        raise ArmorplanError(
            f"'{how}': say 'darker' or 'lighter', as the wrong colour is beside the right one."
        )
    return _COLOURS[how]


def _mm(how: str, ways: Iterable[str]) -> float:
    try:
        mm = float(how.removesuffix("mm").strip().replace(",", "."))
    except ValueError as error:
        more = f", and none of {', '.join(ways)}" if ways else ""
        raise ArmorplanError(f"'{how}' is no distance in mm{more}. {_HOW}") from error
    if not isfinite(mm) or not 0 < mm <= _MOST_MM:
        raise ArmorplanError(f"{how} mm is no distance from 0 to {_MOST_MM:g} mm. {_HOW}")
    return mm
