"""What the choices of an exercise are on the picture: which joints and parts, and the other way round."""

from collections.abc import Container, Mapping
from dataclasses import dataclass

from armorplan.app.rows import Diagram, Selection
from armorplan.desktop.drill_form_words import choice_of_letter, letters, spoken
from armorplan.desktop.part_words import JOINT, PART, diagram_rows
from armorplan.practice.drill import AnswerForm, Choice, Drill, Frame


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureChoices:
    """An exercise and the parts as they stand in it. Keys of the picture are ``joint:ID`` and ``part:ID``."""

    drill: Drill
    diagram: Diagram

    def selection(self, name: str) -> Selection:
        """Return what is lit with a choice; where the id is of none, what all of them are about."""
        choice = next((one for one in self.drill.choices if one.id == name), None)
        if choice is None:
            return self._common()
        every = {part.id for part in self.diagram.parts}
        # Of a step at all parts nothing would stand out: only what it sets is lit.
        parts = () if every <= set(choice.parts) else choice.parts
        return Selection(steps=choice.steps, parts=parts, joints=self._joints(choice))

    def _common(self) -> Selection:
        """Return the joints that every choice is about, with the parts: it is them that is asked of."""
        first, *others = self.drill.choices
        is_alike = all((one.joints, one.parts) == (first.joints, first.parts) for one in others)
        if not (first.joints and is_alike):
            return Selection()
        return Selection(parts=first.parts, joints=first.joints)

    def _joints(self, choice: Choice) -> tuple[str, ...]:
        by_steps = (j.id for j in self.diagram.joints if j.step in choice.steps)
        return tuple(dict.fromkeys((*choice.joints, *by_steps)))

    def at(self, key: str) -> Choice | None:
        """Return the choice that a thing on the picture belongs to, where it belongs to but one."""
        found = [one for one in self.drill.choices if self._is_of(key, one)]
        return found[0] if len(found) == 1 else None

    def _is_of(self, key: str, choice: Choice) -> bool:
        if key.startswith(JOINT):
            return key.removeprefix(JOINT) in self._joints(choice)
        return key.startswith(PART) and key.removeprefix(PART) in choice.parts

    def by_letter(self, letter: str) -> Choice | None:
        """Return the choice that a letter names; ``None`` where it names none."""
        return choice_of_letter(self.drill, letter)

    def spoken(self, key: str) -> str:
        """Say a thing on the picture for the ear: the choice that it belongs to, else what it is."""
        named = self.at(key)
        if named is not None:
            return spoken(letters(self.drill)[named.id], named)
        rows = {row.key: row.spoken for row in diagram_rows(self.diagram)}
        return rows.get(key, "")

    def letters_at(self, heads: Container[str]) -> Mapping[str, str]:
        """Return the joint at which each choice's letter stands; none unless every choice has one.

        Only where choices are chosen, not put in order: of steps in order the picture would be full.

        Args:
            heads: joints that show on the picture.
        """
        if self.drill.form not in (AnswerForm.ONE, AnswerForm.SOME):
            return {}
        named = letters(self.drill)
        found = {
            named[one.id]: next((joint for joint in one.joints if joint in heads), "")
            for one in self.drill.choices
        }
        is_whole = all(found.values()) and len(set(found.values())) == len(found)
        return found if is_whole else {}

    def done_in(self, frame: Frame) -> Selection:
        """Return what the step of a frame sets or what is opened in it; where nothing, the parts worked at."""
        steps = {frame.at, *frame.opened} - {""}
        joints = tuple(j.id for j in self.diagram.joints if j.step in steps)
        return Selection(parts=frame.parts or self._bare_parts(frame.at), joints=joints)

    def amiss_in(self, frame: Frame) -> frozenset[str]:
        """Return the parts on which something can no more be done: those on which it would show."""
        amiss = frozenset(frame.amiss)
        on = {part for j in self.diagram.joints if j.step in amiss for part in j.parts[:1]}
        return frozenset(on.union(*(self._bare_parts(step) for step in amiss)))

    def _bare_parts(self, step: str) -> tuple[str, ...]:
        """Return the parts of a step that sets no joint, where a choice tells them."""
        if any(joint.step == step for joint in self.diagram.joints):
            return ()
        return next((one.parts for one in self.drill.choices if one.steps == (step,)), ())
