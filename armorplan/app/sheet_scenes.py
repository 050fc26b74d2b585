"""Which parts and stacks are drawn at which run of a bench sheet."""

from collections.abc import Iterable, Mapping, Sequence

from armorplan.app.derived import Derived
from armorplan.app.diagram_rows import DiagramRows
from armorplan.app.rows import BenchState, Diagram, DiagramHole, DiagramPart
from armorplan.app.shape_rows import shape_rows
from armorplan.app.spoken_of import SpokenOf
from armorplan.app.stack_names import with_names
from armorplan.assembly.model import Side
from armorplan.geometry.pictures import StackPicture
from armorplan.pattern.parts import Ring
from armorplan.sheets.bench_sheet_model import DrawnHole, DrawnPart, Scene, StackDrawing
from armorplan.steps.model import SETS_JOINT, Step, StepKind

_FINE_MM = 0.2
_DRAWN = SETS_JOINT | {
    StepKind.TOOL,
    StepKind.FORM,
    StepKind.FORM_DRY,
    StepKind.HARDEN,
    StepKind.MOUNT,
    StepKind.THREAD,
    StepKind.PUNCH_MARKED,
    StepKind.MASK,
    StepKind.SKIVE,
}
"""Kinds of work at which a picture of the parts helps."""
_AS_LAID = frozenset((StepKind.LAY_OUT, StepKind.DRY_FIT))
"""Kinds at which all parts of the step are shown as the drawing lays them."""
_MOST_BESIDE = 10
"""More parts than this are not drawn beside each other: none would be legible."""
_MIRROR = "Drawn is the left; the right one is its mirror image."


class SheetScenes:
    """Draws the parts of one build."""

    def __init__(self, derived: Derived) -> None:
        self._derived = derived
        self._diagram: Diagram = DiagramRows(derived).at(lambda _step: BenchState.WAITING)
        self._parts = {part.id: part for part in self._diagram.parts}
        self._outlines = {part.id: _plain(part.outline) for part in self._diagram.parts}
        self._holes: dict[str, list[DiagramHole]] = {}
        for hole in self._diagram.holes:
            self._holes.setdefault(hole.part, []).append(hole)
        self._stacks = _stacks(derived)

    def cover(self) -> Scene:
        """Return all parts of the build, left and right beside each other."""
        shown = [self._drawn(part.id, {}, lit=True) for part in self._in_layers()]
        return Scene(parts=tuple(shown), as_laid=True)

    def _in_layers(self) -> list[DiagramPart]:
        return sorted(self._diagram.parts, key=lambda part: part.layer)

    def of_run(self, steps: Sequence[Step], numbers: Mapping[str, str]) -> Scene | None:
        """Return the parts of a run; ``None`` where a picture tells nothing.

        Args:
            steps: of the run.
            numbers: by the joint what is written at its holes.
        """
        kind = steps[0].kind
        parts = dict.fromkeys(part for step in steps for part in step.parts)
        shown, caption = self._without_mirrors(parts)
        if kind in _AS_LAID:
            drawn = [self._drawn(part, {}, lit=True) for part in shown]
            return Scene(parts=tuple(drawn), as_laid=True, caption=caption) if drawn else None
        if kind not in _DRAWN or not shown or len(shown) > _MOST_BESIDE:
            return None
        lit = {joint: numbers.get(joint, "") for step in steps for joint in step.joints}
        drawn = [self._drawn(part, lit, lit=True) for part in shown]
        return Scene(parts=tuple(drawn), caption=caption)

    def of_marks(self, parts: Iterable[str], marks: Mapping[str, str]) -> Scene:
        """Return parts side by side, with something written at the holes of some joints.

        Args:
            parts: of the build; of a pair whose two sides are drawn alike the left one.
            marks: by the joint what is written there.
        """
        marked = {p for joint in marks for p in self._derived.assembly.joint(joint).parts}
        shown, caption = self._without_mirrors(parts)
        more = [part for part in parts if part in marked and part not in shown]
        drawn = [self._drawn(part, marks, lit=True) for part in (*shown, *more)]
        return Scene(parts=tuple(drawn), caption="" if more else caption)

    def _without_mirrors(self, parts: Iterable[str]) -> tuple[list[str], str]:
        """Return parts without the right ones whose left ones are there, and a word on that."""
        every = list(parts)
        sided = {part: self._derived.assembly.part(part) for part in every}
        left = {one.part.id for one in sided.values() if one.side is Side.LEFT}
        shown = [
            part
            for part, one in sided.items()
            if one.side is not Side.RIGHT or one.part.id not in left
        ]
        return shown, _MIRROR if len(shown) < len(every) else ""

    def _drawn(self, part_id: str, marks: Mapping[str, str], *, lit: bool) -> DrawnPart:
        part = self._parts[part_id]
        return DrawnPart(
            name=part.name,
            outline=self._outlines[part_id],
            slots=part.slots,
            holes=tuple(
                DrawnHole(
                    centre=hole.centre,
                    diameter_mm=hole.diameter_mm,
                    mark=marks.get(hole.joint or "", ""),
                )
                for hole in self._holes.get(part_id, ())
            ),
            up_deg=part.up_deg,
            lit=lit,
        )

    def stacks(
        self, steps: Sequence[Step], numbers: Mapping[str, str]
    ) -> tuple[StackDrawing, ...]:
        """Return the sections of the joints that a run sets, once for stacks alike."""
        found: dict[tuple[str, StackPicture], list[str]] = {}
        for step in steps:
            for joint in self._derived.work.sets(step):
                picture = self._stacks.get(joint)
                if picture is None or self._is_mirror(joint):
                    continue
                fastener = self._derived.shelf.fastener(step.fastener or "")
                title = fastener.name if fastener else step.fastener or ""
                named = with_names(picture, self._names(joint))
                found.setdefault((title, named), []).append(numbers.get(joint, ""))
        return tuple(
            StackDrawing(picture=picture, title=title, where=_where(places))
            for (title, picture), places in found.items()
        )

    def has_stack(self, step: Step) -> bool:
        """Tell whether a section is drawn of all joints that a step sets."""
        joints = self._derived.work.sets(step)
        return bool(joints) and all(joint in self._stacks for joint in joints)

    def _is_mirror(self, joint: str) -> bool:
        """Tell whether a joint is drawn already, on the left."""
        sided = self._derived.assembly.joint(joint)
        twin = Side.LEFT.tag(sided.joint.id)
        return sided.side is Side.RIGHT and twin in self._stacks

    def _names(self, joint: str) -> tuple[str, ...]:
        """Return the names of the parts a joint passes, without their side."""
        assembly = self._derived.assembly
        return tuple(assembly.part(part).part.name for part, _ in assembly.joint(joint).stack)


def _plain(ring: Ring) -> Ring:
    """Return an outline with fewer corners: what is drawn small shows no more of them."""
    from shapely import LinearRing

    found = LinearRing(ring).simplify(_FINE_MM).coords
    return tuple((x, y) for x, y in found[:-1])


def _stacks(derived: Derived) -> dict[str, StackPicture]:
    found: dict[str, StackPicture] = {}
    for row in shape_rows(derived, SpokenOf(derived)):
        if isinstance(row.picture, StackPicture):
            for joint in row.joints:
                found.setdefault(joint, row.picture)
    return found


def _where(numbers: list[str]) -> str:
    told = list(dict.fromkeys(filter(None, numbers)))
    if not told:
        return ""
    word = "step" if len(told) == 1 else "steps"
    return f"{word} {', '.join(told)}"
