"""The cut list of a build, and its beds as they go to the cutter."""

from collections.abc import Iterator

from armorplan.app.derived import Derived
from armorplan.needs.cutting.blanks import CutScene, cut_shape
from armorplan.needs.cutting.listing import cut_list
from armorplan.needs.cutting.model import CutAsked, CutLeather, CutList, CutterBed
from armorplan.needs.figures import thickness_words
from armorplan.relations.model import Before
from armorplan.steps.scene import Scene

_AFTER_SHAPING = "punch-after-forming"


def cut_scene(derived: Derived) -> CutScene:
    """Return what a cut list is reckoned from."""
    waiting = (
        relation.then
        for relation in derived.relations
        if isinstance(relation, Before)
        and relation.reason.rule == _AFTER_SHAPING
        and not relation.reason.overruled
    )
    return CutScene(
        scene=Scene(assembly=derived.assembly, shelf=derived.shelf, room=derived.shop.room),
        shaped_first=frozenset(derived.work.step(step).parts[0] for step in waiting),
    )


def cut_list_of(derived: Derived, asked: CutAsked) -> CutList:
    """Return the cut list of a build."""
    return cut_list(cut_scene(derived), asked)


def cutter_beds(derived: Derived, found: CutList) -> tuple[CutterBed, ...]:
    """Return the beds of a cut list with the lines on them; none where no bed was named."""
    return tuple(_beds(cut_scene(derived), found))


def _beds(cut: CutScene, found: CutList) -> Iterator[CutterBed]:
    bed = found.asked.bed
    if bed is None:
        return
    for leather in found.leathers:
        for filled in leather.beds:
            yield CutterBed(
                key=f"{leather.leather}-{leather.thickness_mm:.1f}mm-{filled.number}",
                pattern=found.pattern,
                title=bed_title(leather, filled.number),
                wide_mm=bed.wide_mm,
                high_mm=bed.high_mm,
                shapes=tuple(
                    cut_shape(cut, blank, found.asked.kerf_mm) for blank in filled.blanks
                ),
            )


def bed_title(leather: CutLeather, number: int) -> str:
    """Return which bed it is: its leather and thickness, and its number where there are several."""
    words = f"{leather.name}, {thickness_words(leather.least_mm, leather.thickness_mm)}"
    return f"{words}, bed {number} of {len(leather.beds)}" if len(leather.beds) > 1 else words
