"""Holes joined on the drawing table: to one joint, to a row, to a joint that slides."""

from collections.abc import Callable, Collection, Mapping

from PySide6.QtCore import QCoreApplication

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.joints import Holding, join, join_row
from armorplan.desktop.shape_edit_asks import Ask, AskField, Told
from armorplan.desktop.shape_edit_over import Ghost
from armorplan.desktop.shape_edit_pairs import Stack, slide_of, stacks_of
from armorplan.desktop.widgets.shape_edit_doing import TableDoing
from armorplan.pattern.joining import JointKind, Motion
from armorplan.pattern.parts import Hole, PartKind
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

POSTED = (JointKind.RIVET, JointKind.SCREW, JointKind.LACE)
"""Kinds of joints that go through holes one by one."""


def _tr(text: str) -> str:
    return QCoreApplication.translate("JointActs", text)


_PIVOTS = 2
"""A lame turns on one joint, or on one at either end; more of them hold it fast."""
_MOTIONS = (
    (Motion.FIXED, "hold fast"),
    (Motion.TURNING, "turn on it"),
    (Motion.SLIDING, "slide in a slot"),
)


def usual_motion(pattern: Pattern, parts: Collection[str], joints: int) -> Motion:
    """Return how parts most likely move on so many joints: lames turn, all else holds fast."""
    kinds = {pattern.part(part).kind for part in parts}
    return Motion.TURNING if PartKind.LAME in kinds and joints <= _PIVOTS else Motion.FIXED


def how_fields(shelf: Shelf, motion: Motion = Motion.FIXED) -> tuple[AskField, ...]:
    """Return the fields that ask how a joint holds; one that slides is asked for nothing else."""
    if motion is Motion.SLIDING:
        motions = tuple(one for one in _MOTIONS if one[0] is motion)
    else:
        motions = tuple(one for one in _MOTIONS if one[0] is not Motion.SLIDING)
    kinds = tuple((kind.value, _tr(kind.value)) for kind in POSTED)
    usual = ("", _tr("as most joints of this kind here"))
    sold = tuple((one.id, one.name) for one in shelf.fasteners)
    return (
        AskField(name="kind", label=_tr("by"), text=JointKind.RIVET.value, words=kinds),
        AskField(name="fastener", label=_tr("with"), words=(usual, *sold)),
        AskField(
            name="motion",
            label=_tr("they"),
            text=motion.value,
            words=tuple((one.value, _tr(words)) for one, words in motions),
        ),
    )


def how_told(told: Told) -> Holding:
    """Return how a joint shall hold."""
    return Holding(
        kind=JointKind(told["kind"]), fastener=told["fastener"], motion=Motion(told["motion"])
    )


class JointActs:
    """Joins holes that are chosen."""

    def __init__(self, doing: TableDoing) -> None:
        self._doing = doing

    def acts(self) -> Mapping[str, Callable[[], None]]:
        """Return what each act does, by its slug."""
        return {
            "join": self._ask_join,
        }

    def _holes(self) -> list[Hole]:
        return [self._doing.scene.pattern.hole(hole) for hole in self._doing.choice.holes]

    # --- joining ------------------------------------------------------------------------------

    def _ask_join(self) -> None:
        scene, choice = self._doing.scene, self._doing.choice
        if choice.slots:
            self._ask_slide()
            return
        stacks = stacks_of(self._holes())
        if not stacks:
            self._doing.said.emit(
                _tr(
                    "These holes make no joint. Choose one hole of each layer, or as many holes of "
                    "one part as of the other; the part chosen first lies outside."
                )
            )
            return
        is_row = len(stacks) > 1
        outside = scene.pattern.hole(stacks[0][0]).part
        layers = self._layers(stacks[0])
        motion = usual_motion(scene.pattern, [part for part, _ in layers], len(stacks))
        fields = how_fields(self._doing.desk.drafts.draft.bench.shelf, motion)
        fields_of_row: tuple[AskField, ...] = ()
        if is_row:
            fields_of_row = (
                AskField(name="name", label=_tr("called"), text=self._row_name(layers)),
                AskField(
                    name="turned",
                    label=_tr("paired"),
                    words=(("", _tr("as the spacings say")), ("yes", _tr("the other way round"))),
                ),
            )
        outermost = AskField(name="outside", label=_tr("outside lies"), text=outside, words=layers)
        count = _tr("a row of {0} joints").format(len(stacks)) if is_row else _tr("one joint")
        self._doing.ask(
            Ask(
                id="join",
                title=_tr("Join {0}").format(count),
                fields=(*fields, outermost, *fields_of_row),
                then=self._join,
                sketch=self._sketch_join,
            )
        )

    def _layers(self, stack: Stack) -> tuple[tuple[str, str], ...]:
        pattern = self._doing.scene.pattern
        parts = dict.fromkeys(pattern.hole(hole).part for hole in stack)
        return tuple((part, pattern.part(part).name) for part in parts)

    def _row_name(self, layers: tuple[tuple[str, str], ...]) -> str:
        return _tr(" to ").join(name for _, name in layers)

    def _stacks(self, told: Told) -> tuple[Stack, ...]:
        """Return the stacks with the part on top that was told to lie outside."""
        pattern = self._doing.scene.pattern
        stacks = stacks_of(self._holes(), turned=bool(told.get("turned")))
        outside = told["outside"]
        return tuple(
            tuple(sorted(stack, key=lambda hole: pattern.hole(hole).part != outside))
            for stack in stacks
        )

    def _join(self, told: Told) -> None:
        stacks, how = self._stacks(told), how_told(told)
        name = told.get("name", "").strip()

        def joined(draft: Draft) -> Draft | Refused:
            if len(stacks) == 1:
                return join(draft, stacks[0], how=how)
            return join_row(draft, stacks, name=name, how=how)

        words = _tr("join {0}").format(name or ", ".join(stacks[0]))
        self._doing.edit(joined, words)

    def _sketch_join(self, told: Told) -> tuple[Ghost, ...]:
        pattern = self._doing.scene.pattern
        stacks = self._stacks(told)
        pairs = tuple(
            (pattern.hole(stack[0]).centre, pattern.hole(inner).centre)
            for stack in stacks
            for inner in stack[1:]
        )
        return (Ghost(pairs=pairs),)

    def _ask_slide(self) -> None:
        """Ask how a hole is joined to the slot that it is to slide in."""
        scene, choice = self._doing.scene, self._doing.choice
        stack = slide_of(scene, choice.keys)
        if not stack:
            self._doing.said.emit(
                _tr(
                    "To slide, a joint goes through a hole of one part and a slot of the other: "
                    "choose just these, the outer one first."
                )
            )
            return
        self._doing.ask(
            Ask(
                id="join",
                title=_tr("A joint that slides in {0}").format(choice.slots[0]),
                fields=how_fields(self._doing.desk.drafts.draft.bench.shelf, Motion.SLIDING),
                then=lambda told: self._doing.edit(
                    lambda draft: join(draft, stack, how=how_told(told)),
                    _tr("join {0}").format(", ".join(stack)),
                ),
            )
        )
