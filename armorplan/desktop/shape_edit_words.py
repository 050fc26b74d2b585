"""What the drawing table says of what is chosen: sizes, places and spacings in mm."""

from collections.abc import Sequence
from itertools import pairwise
from math import dist

from PySide6.QtCore import QCoreApplication

from armorplan.desktop.shape_edit_choice import Choice
from armorplan.desktop.shape_edit_scene import PART, TableScene
from armorplan.pattern.parts import Part, Ring


def _tr(text: str) -> str:
    return QCoreApplication.translate("TableWords", text)


def mm(value: float) -> str:
    """Write millimetres to a hundredth at most."""
    return f"{round(value, 2) + 0.0:g}"


def span(values: Sequence[float]) -> str:
    """Write the least and the most of some millimetres; one number where they are the same."""
    least, most = mm(min(values)), mm(max(values))
    return least if least == most else _tr("{0} to {1}").format(least, most)


def choice_words(scene: TableScene, choice: Choice) -> tuple[str, str]:
    """Return a title and a sentence or two about what is chosen."""
    if choice.holes:
        return _holes(scene, choice)
    if choice.parts:
        return _parts(scene, choice.parts)
    if choice.slots:
        return _slot(scene, choice.slots[0])
    if choice.forms:
        return _axis(scene, choice.forms[0])
    if choice.spare:
        return _spare(scene, choice.spare[0])
    return _tr("Nothing is chosen"), _tr(
        "Click a hole or a part, or walk with the arrow keys and press Enter. Ctrl with a click "
        "or Space takes more in; a box drawn with the mouse takes all holes in it."
    )


def _one_hole(scene: TableScene, name: str) -> tuple[str, str]:
    hole = scene.pattern.hole(name)
    part = scene.pattern.part(hole.part).name
    told = [_tr("In {0}.").format(part)]
    joints = scene.through.get(name, ())
    told.append(
        _tr("Through it goes {0}.").format(", ".join(joints))
        if joints
        else _tr("It is in no joint yet.")
    )
    for row in scene.rows_of(name):
        at = row.holes.index(name)
        near = [
            mm(dist(row.line[one], row.line[at]))
            for one in (at - 1, at + 1)
            if 0 <= one < len(row.line)
        ]
        told.append(
            _tr("Number {0} of {1} of the row {2}; {3} mm to its neighbours.").format(
                at + 1, len(row.holes), row.seam, _tr(" and ").join(near)
            )
        )
    return _tr("Hole {0}").format(name), " ".join(told)


def _holes(scene: TableScene, choice: Choice) -> tuple[str, str]:
    names = choice.holes
    if len(names) == 1:
        return _one_hole(scene, names[0])
    holes = [scene.pattern.hole(name) for name in names]
    parts = tuple(dict.fromkeys(scene.pattern.part(hole.part).name for hole in holes))
    told = _tr("In {0}.").format(", ".join(parts))
    if len(parts) == 1:
        gaps = [dist(a.centre, b.centre) for a, b in pairwise(holes)]
        told += " " + _tr("From one to the next as chosen {0} mm.").format(span(gaps))
    return _tr("{0} holes").format(len(holes)), told


def _parts(scene: TableScene, names: tuple[str, ...]) -> tuple[str, str]:
    parts = [scene.pattern.part(name) for name in names]
    if len(parts) == 1:
        return _one_part(parts[0])
    return _tr("{0} parts").format(len(parts)), ", ".join(part.name for part in parts)


def _one_part(part: Part) -> tuple[str, str]:
    wide, high = size_mm(part.outline)
    told = _tr("{0} by {1} mm, {2} holes, {3} mm thick.").format(
        mm(wide),
        mm(high),
        len(part.holes),
        mm(part.thickness_mm),
    )
    return _tr("Part {0}").format(part.name), told


def _slot(scene: TableScene, name: str) -> tuple[str, str]:
    slot = scene.pattern.slot(name)
    told = _tr("In {0}: {1} mm long, {2} mm wide.")
    part = scene.pattern.part(slot.part).name
    return _tr("Slot {0}").format(name), told.format(part, mm(slot.length_mm), mm(slot.width_mm))


def _axis(scene: TableScene, name: str) -> tuple[str, str]:
    form = next(form for form in scene.pattern.forms if form.id == name)
    parts = ", ".join(scene.pattern.part(part).name for part in form.parts)
    return _tr("Line of the bend {0}").format(name), _tr("It bends {0}.").format(parts)


def _spare(scene: TableScene, name: str) -> tuple[str, str]:
    one = scene.spare_outline(name)
    wide, high = size_mm(one.ring)
    told = _tr("{0} by {1} mm.").format(mm(wide), mm(high))
    told += " " + _tr("The pattern makes nothing of it yet; I makes it a part.")
    return _tr("Outline {0}").format(name), told


def size_mm(ring: Ring) -> tuple[float, float]:
    """Return how wide and high an outline is, in mm."""
    across, down = [x for x, _ in ring], [y for _, y in ring]
    return max(across) - min(across), max(down) - min(down)


def spoken(scene: TableScene, key: str) -> str:
    """Return what a thing on the table is called, for screen readers."""
    title, told = choice_words(scene, Choice((key,)))
    return title if key.startswith(PART) else f"{title}. {told}"


def up_words() -> str:
    """Return what stands at the arrow that says which way is up on the wearer."""
    return _tr("up")


def backbone_words() -> str:
    """Return what stands at the arrow along the hide's backbone."""
    return _tr("backbone")
