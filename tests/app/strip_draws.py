"""Assemblies drawn by chance whose rows go through a third plate, or that one seam goes all round."""

from dataclasses import replace
from random import Random

from app.shell_draws import assembly_of

from armorplan.pattern.joining import Joint, Seam
from armorplan.pattern.parts import Hole, MadeOn, Part, Point
from armorplan.pattern.pattern import Pattern

WIDE_MM = 15.0


def strips_of(seed: int) -> tuple[str, Pattern]:
    """Return what a seed draws: strips in rows on odd thirds, one seam over all rows on the others."""
    chance = Random(-seed)  # noqa: S311 - the same drawing every time
    name, pattern = assembly_of(seed)
    if seed % 3:
        pattern = _with_strip(pattern, chance)
        name = f"{name} with a strip"
    if seed % 3 != 1:
        pattern, name = _with_one_seam(pattern, chance), f"{name}, one seam"
    return name, pattern


def _with_one_seam(pattern: Pattern, chance: Random) -> Pattern:
    """Return a pattern whose rows are all one seam, now and then listed in another order."""
    rows = [joint.id for joint in pattern.joints if joint.id.startswith("j")]
    if chance.random() < 0.2:
        chance.shuffle(rows)
    return replace(pattern, seams=(Seam(id="all", name="all rows", joints=tuple(rows)),))


def _with_strip(pattern: Pattern, chance: Random) -> Pattern:
    """Return a pattern with a plate in one or two of its rows: inside, between or outside."""
    names = sorted({joint.id.split("_")[0] for joint in pattern.joints if joint.id[0] == "j"})
    for name in chance.sample(names, min(len(names), chance.randint(1, 2))):
        row = [joint for joint in pattern.joints if joint.id.startswith(f"{name}_")]
        place = chance.randint(0, 2)
        strip = _strip(pattern, row, whole=chance.random() < 0.2)
        through = {joint.id: _through(joint, place, f"{strip.id}_{joint.id}") for joint in row}
        pattern = replace(
            pattern,
            parts=(*pattern.parts, strip),
            joints=tuple(through.get(joint.id, joint) for joint in pattern.joints),
        )
    return pattern


def _through(joint: Joint, place: int, hole: str) -> Joint:
    return replace(joint, stack=(*joint.stack[:place], hole, *joint.stack[place:]))


def _strip(pattern: Pattern, row: list[Joint], *, whole: bool) -> Part:
    """Return a strip as long as a row, or a whole plate like the one under it."""
    under = pattern.part(pattern.hole(row[0].stack[0]).part)
    spots = [pattern.hole(joint.stack[0]).centre for joint in row]
    id_ = f"strip_{row[0].id.split('_')[0]}"
    return replace(
        under,
        id=id_,
        name=id_,
        made_on=MadeOn.BOTH,
        outline=under.outline if whole else _round(spots[0], spots[-1]),
        holes=tuple(
            Hole(id=f"{id_}_{joint.id}", part=id_, centre=spot, diameter_mm=3.5)
            for joint, spot in zip(row, spots, strict=True)
        ),
    )


def _round(one: Point, other: Point) -> tuple[Point, ...]:
    """Return a strip round a row, from a little before its one end to beyond its other."""
    along = other[0] - one[0], other[1] - one[1]
    far = (along[0] ** 2 + along[1] ** 2) ** 0.5 or 1.0
    x, y = along[0] / far * WIDE_MM, along[1] / far * WIDE_MM
    return (
        (one[0] - x - y, one[1] - y + x),
        (other[0] + x - y, other[1] + y + x),
        (other[0] + x + y, other[1] + y - x),
        (one[0] - x + y, one[1] - y - x),
    )
