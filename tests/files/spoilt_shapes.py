"""Sound patterns with their shapes altered in a seeded way, so that most can still be built.

Where ``spoilt`` breaks files, this moves holes, turns axes, tightens bends, swaps layers and names
movements: what is read without a fault reaches everything that reckons with shapes.
"""

import re
import tomllib
from functools import cache
from itertools import pairwise
from random import Random

import tomlkit
from files.small_cuff import SHELF
from files.spoilt import SOUND

from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import from_texts

_WHOLE = [files for files in SOUND if "pattern.toml" in files]
_CIRCLE = re.compile(rb'(<circle\b[^>]*\bc[xy]=")([^"]+)(")')
_RADIUS = re.compile(rb'(<circle\b[^>]*\br=")([^"]+)(")')
_SIZES = (0.01, 0.5, 1.0, 3.0, 3.2, 12.0, 29.9)
_RADII = (0.001, 0.5, 2.0, 4.0, 30.0, 45.0, 95.0, 500.0, 9_999.0)
_ANGLES = (0.0, 0.01, 30.0, 90.0, 179.9, 180.0, 270.0, 359.9, 720.0)
_AWAY_MM = (0.0, 0.05, 0.6, 2.0, 4.0, 25.0, 400.0)


def spoil_shapes(seed: int) -> dict[str, bytes]:
    """Return the files of a sound pattern, its shapes altered in two to six places."""
    chance = Random(seed)  # noqa: S311 - the same spoiling for the same seed
    files = dict(chance.choice(_WHOLE))
    told = tomllib.loads(files["pattern.toml"].decode("utf-8"))
    for _ in range(chance.randint(2, 6)):
        if chance.random() < 0.3:
            name = chance.choice([n for n in files if n.endswith(".svg")])
            files[name] = _moved_hole(files[name], chance)
        else:
            chance.choice(_CHANGES)(told, chance)
    files["pattern.toml"] = tomlkit.dumps(told).encode()
    return files


def _moved_hole(data, chance):
    """Move one hole, lay it on another one's line, or make it wider."""
    pattern = chance.choice((_CIRCLE, _CIRCLE, _RADIUS))
    found = list(pattern.finditer(data))
    if not found:
        return data
    at, like = chance.choice(found), chance.choice(found)
    off_mm = chance.choice(_AWAY_MM) * chance.choice((-1, 1))
    value = like[2] if chance.random() < 0.3 else b"%.3f" % (float(at[2]) + off_mm)
    return data[: at.start(2)] + value + data[at.end(2) :]


def _one(told, table, chance):
    entries = told.setdefault(table, {})
    return entries[chance.choice(sorted(entries))] if entries else {}


def _ids(told, table):
    return sorted(told.get(table, {}))


def _spot(chance):
    return [round(chance.uniform(-50.0, 450.0), 2), round(chance.uniform(-50.0, 450.0), 2)]


def _thickness(told, chance):
    part = _one(told, chance.choice(("parts", "materials")), chance)
    part.pop("weight_oz", None)
    part["thickness_mm"] = chance.choice(_SIZES)


def _tighter(told, chance):
    form = _one(told, "forms", chance)
    form["radius_mm"] = chance.choice(_RADII)
    if chance.random() < 0.7:
        form["angle_deg"] = chance.choice(_ANGLES)
    if chance.random() < 0.2:
        form.pop(chance.choice(("radius_mm", "angle_deg")), None)


def _axis(told, chance):
    one, other = _spot(chance), _spot(chance)
    form = _one(told, "forms", chance)
    form["axis"] = [one, chance.choice((other, other, one))]


def _form(told, chance):
    kind, route = chance.choice(
        (("bend", "damp"), ("bend", "dry"), ("dish", "damp"), ("fold", "wet_fold"))
    )
    parts = chance.sample(_ids(told, "parts"), chance.randint(1, min(3, len(told["parts"]))))
    told.setdefault("forms", {})[f"form_{chance.randrange(99)}"] = {
        "kind": kind,
        "parts": parts,
        "route": route,
        "radius_mm": chance.choice(_RADII),
        "axis": [_spot(chance), _spot(chance)],
    }


def _movement(told, chance):
    """Name a chain of parts that are joined, and let them turn on these joints."""
    pairs = _pairs(told["pattern"]["uuid"])
    parts = list(chance.choice(sorted(pairs) or [("plate", "strap")]))
    while chance.random() < 0.6:
        ways = [other for one, other in sorted(pairs) if one == parts[-1] and other not in parts]
        if not ways:
            break
        parts.append(chance.choice(ways))
    for pair in pairwise(parts):
        for name in pairs.get(pair, ()):
            joint = told["joints"].get(name, {})
            joint.pop("motion", None)
            joint["turning"] = True
    movement = {
        "name": "it bends",
        "parts": parts,
        "angle_deg": chance.choice((0.5, 90, 140, 360)),
    }
    if chance.random() < 0.4:
        share = movement["angle_deg"] / (len(parts) - 1)
        movement["shares_deg"] = [share] * (len(parts) - 1)
    told.setdefault("movements", {})[f"bends_{chance.randrange(9)}"] = movement


@cache
def _pairs(uuid):
    """Return two parts that follow each other in the stacks of a sound pattern -> their joints."""
    found = {}
    for files in _WHOLE:
        if uuid in files["pattern.toml"].decode("utf-8"):
            texts = {name: data.decode("utf-8") for name, data in files.items()}
            pattern = read_pattern(from_texts("p", texts), SHELF).pattern
            for joint in pattern.joints:
                for one, other in pairwise(pattern.stack_parts(joint.id)):
                    found.setdefault((one, other), []).append(joint.id)
                    found.setdefault((other, one), []).append(joint.id)
    return {pair: joints for pair, joints in found.items() if pair[0] != pair[1]}


def _less_movement(told, chance):
    movement = _one(told, "movements", chance)
    if movement:
        movement["angle_deg"] = chance.choice((0.01, 60, 140, 359))
        movement.pop("shares_deg", None)
        chance.shuffle(movement["parts"])


def _stack(told, chance):
    stack = _one(told, "joints", chance).get("stack", [])
    chance.shuffle(stack)
    if stack and chance.random() < 0.3:
        stack.append(chance.choice(stack))
    if len(stack) > 1 and chance.random() < 0.2:
        stack.pop()


def _swapped_holes(told, chance):
    stacks = [joint["stack"] for joint in told.get("joints", {}).values() if joint.get("stack")]
    if len(stacks) > 1:
        one, other = chance.sample(stacks, 2)
        one[-1], other[-1] = other[-1], one[-1]


def _turned(told, chance):
    joint = _one(told, "joints", chance)
    joint.pop("turning", None)
    joint["motion"] = chance.choice(("fixed", "turning", "sliding"))


def _seam(told, chance):
    """Sew some joints of no seam in a row, or add some to a seam."""
    sewn = {joint for seam in told.get("seams", {}).values() for joint in seam["joints"]}
    free = [joint for joint in _ids(told, "joints") if joint not in sewn]
    named = chance.sample(free, min(len(free), chance.randint(1, 7)))
    seam = _one(told, "seams", chance)
    if seam and chance.random() < 0.5:
        seam["joints"] += named
    elif named:
        row = {"name": "row", "joints": named}
        told.setdefault("seams", {})[f"seam_{chance.randrange(99)}"] = row


def _seam_order(told, chance):
    joints = _one(told, "seams", chance).get("joints", [])
    chance.choice((chance.shuffle, list.reverse, lambda row: row[1:] and row.pop()))(joints)


def _way(told, chance):
    part = _one(told, "parts", chance)
    part[chance.choice(("up_deg", "backbone_deg"))] = chance.choice((0, 45, 90, 180, -90, 271.5))
    if chance.random() < 0.3:
        part["kind"] = chance.choice(("plate", "lame", "cop", "strap", "trim", "lining"))
    if chance.random() < 0.2:
        part["drawn_from_inside"] = True


def _hides(told, chance):
    joints = _ids(told, "joints")
    _one(told, "parts", chance)["hides"] = chance.sample(joints, min(len(joints), 3))


def _washer(told, chance):
    joint = _one(told, "joints", chance)
    joint["washer_mm"] = chance.choice((0, 0.3, 3.0, 29.0))
    if chance.random() < 0.3:
        joint["fastener"] = chance.choice(("double_cap_9", "screw_post_turning", "solid_rivet"))


_CHANGES = (
    _thickness, _tighter, _tighter, _axis, _axis, _form, _movement, _movement, _less_movement,
    _stack, _swapped_holes, _turned, _seam, _seam, _seam_order, _way, _hides, _washer,
)  # fmt: skip
