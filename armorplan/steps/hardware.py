"""The putting on of buckles, rings, loops and studs, each in its own words."""

import re
from collections.abc import Iterator

from armorplan.assembly.model import SidedHardware
from armorplan.pattern.joining import FormKind
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered, part_name
from armorplan.steps.scene import Group
from armorplan.workshop.shelf import HardwareEntry

STUD = "stud"
_SIZE = re.compile(r"[0-9.]+ mm")
_WORDS = {
    "buckle": "{fold}mind which way the tongue points.",
    "ring": "{fold}turn its joint under the leather.",
    "loop": "{fold}its straight side lies in the leather.",
    STUD: "Through its hole from inside, the head outward, and tight: it must not turn.",
}


def mounting_steps(group: Group) -> Iterator[Step]:
    """Yield the putting on of each buckle, ring, loop or stud."""
    scene = group.scene
    for sided in scene.assembly.hardware:
        if (sided.piece, sided.side) != (group.piece, group.side):
            continue
        entry = scene.shelf.hardware_entry(sided.hardware.use)
        yield group.hand_step(
            StepKind.MOUNT,
            sided.id,
            _title(group, sided, entry),
            parts=(sided.part,),
            minutes=scene.reckon(StepKind.MOUNT, parts=sided.hardware.count),
            detail=_detail(group, sided, entry),
        )


def _title(group: Group, sided: SidedHardware, entry: HardwareEntry | None) -> str:
    count, part = sided.hardware.count, part_name(group.scene.assembly, sided.part)
    what = _called(entry) if entry else sided.hardware.use
    many = f"{count} × {what}" if count > 1 else f"the {what}"
    if entry and entry.kind == STUD:
        return f"Fix {many} to the {part}"
    return f"Put {many} on the {part}"


def _called(entry: HardwareEntry) -> str:
    """Return an entry's name as it stands in a sentence: ``20 mm buckle with one tongue``."""
    name, *more = entry.name.split(", ")
    size = more[-1] if more and entry.kind != STUD and _SIZE.fullmatch(more[-1]) else ""
    return f"{size} {lowered(name)}".strip()


def _detail(group: Group, sided: SidedHardware, entry: HardwareEntry | None) -> str:
    words = _WORDS.get(entry.kind if entry else "", "{fold}see that it lies the right way.")
    forms = group.scene.assembly.forms
    folded = any(f.form.kind is FormKind.FOLD and sided.part in f.parts for f in forms)
    said = words.format(fold="before the fold is shut; " if folded or sided.held_by else "")
    return said[:1].upper() + said[1:]
