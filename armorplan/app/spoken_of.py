"""From the ids that a finding or a measure speaks of to what lights: both sides of a pair."""

from collections.abc import Iterable

from armorplan.app.derived import Derived
from armorplan.app.rows import Selection
from armorplan.assembly.model import SidedSeam
from armorplan.steps.model import StepKind

_SHAPING = frozenset((StepKind.FORM, StepKind.FORM_DRY, StepKind.HARDEN))
_Found = dict[str, list[str]]


class SpokenOf:
    """What the ids of one build stand for; an id without a side stands for each side it is made on.

    Ids are unique in a table only: one that names a part and a seam lights both.
    """

    def __init__(self, derived: Derived) -> None:
        self._derived = derived
        self._parts: _Found = {}
        self._joints: _Found = {}
        self._steps: _Found = {}
        self._seams: dict[str, list[SidedSeam]] = {}
        self._add_parts()
        self._add_joints()
        self._add_steps()

    def _add_parts(self) -> None:
        assembly = self._derived.assembly
        for sided in assembly.parts:
            for name in (sided.part.id, sided.id, sided.part.piece):
                _add(self._parts, name, sided.id)
            inside = (*(h.id for h in sided.part.holes), *(s.id for s in sided.part.slots))
            for name in inside:
                _add(self._parts, name, sided.id)
                _add(self._parts, sided.side.tag(name), sided.id)

    def _add_joints(self) -> None:
        for sided in self._derived.assembly.joints:
            for name in (sided.joint.id, sided.id):
                _add(self._joints, name, sided.id)
            for _, hole in sided.stack:
                for name in (hole, sided.side.tag(hole)):
                    _add(self._joints, name, sided.id)
        for seam in self._derived.assembly.seams:
            for name in (seam.seam.id, seam.id):
                self._seams.setdefault(name, []).append(seam)

    def _add_steps(self) -> None:
        """Add steps by their own id, and those of forms, threads and own work by their subject."""
        derived = self._derived
        for form in derived.assembly.forms:
            for name in (form.form.id, form.id):
                for part in form.parts:
                    _add(self._parts, name, part)
                for seam in form.seams:
                    self._seams.setdefault(name, []).extend(self._seams.get(seam, ()))
        formed = {name for form in derived.assembly.forms for name in (form.form.id, form.id)}
        held = {*self._parts, *self._joints, *self._seams, *(p.id for p in derived.pattern.pieces)}
        for step in derived.work.steps:
            _add(self._steps, step.id, step.id)
            subject = step.id.rpartition("/")[2]
            for name in dict.fromkeys((subject.partition(".")[0], subject)):
                if step.kind in _SHAPING if name in formed else name not in held:
                    _add(self._steps, name, step.id)

    def light(self, ids: Iterable[str]) -> Selection:
        """Return the parts, joints and steps that ids of a pattern or a build stand for.

        A seam lights its joints unless some of them are named beside it; a hole lights its part
        and the joint through it; a piece lights its parts. Joints bring the steps that set them. Unknown ids light nothing.
        """
        named = tuple(dict.fromkeys(ids))
        joints = _all(self._joints, named) or self._sewn(named)
        setting = (self._derived.work.setting(joint) for joint in joints)
        steps = (*_all(self._steps, named), *(step.id for step in setting if step))
        return Selection(
            steps=tuple(dict.fromkeys(steps)),
            parts=_all(self._parts, named),
            joints=joints,
        )

    def _sewn(self, named: tuple[str, ...]) -> tuple[str, ...]:
        seams = (seam for name in named for seam in self._seams.get(name, ()))
        return tuple(dict.fromkeys(joint for seam in seams for joint in seam.joints))


def _add(found: _Found, name: str, one: str) -> None:
    under = found.setdefault(name, [])
    if name and one not in under:
        under.append(one)


def _all(found: _Found, named: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one for name in named for one in found.get(name, ())))
