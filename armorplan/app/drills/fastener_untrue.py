"""The sum of a post with a layer that is not as thick, from which the post would not follow."""

from dataclasses import replace

from armorplan.app.derived import Derived
from armorplan.app.drills.fastener_choices import fitting_of
from armorplan.app.drills.fastener_sums import POST, layers_of, mm_words, reckoned
from armorplan.app.drills.untrue import Untrue
from armorplan.geometry.stacks import Post, stack_of
from armorplan.pattern.joining import Joint
from armorplan.pattern.pattern import Pattern
from armorplan.practice.drill import Because, Drill

_THICKER_MM = (0.8, 1.2, 1.6, 2.0, 2.4, 3.2)
"""By so much a layer is told too thick, or too thin: about half an ounce of leather more or less."""
_LEAST_MM = 0.8


def untrue_post(derived: Derived, drill: Drill, because: Because) -> Untrue | None:
    """Return the sum with the outermost layer so thick, or thin, that the post would not hold.

    ``None`` where no thickness that leather comes in does that.
    """
    length_mm = next((one.value for one in because.exact if one.name == POST), None)
    joint = derived.assembly.joint(drill.choices[0].joints[0])
    fitting = fitting_of(derived, joint)
    (name, true_mm), *_ = layers_of(derived.pattern, joint.joint)
    used = next((one.id for one in drill.choices if one.id.endswith(f":{length_mm:g}")), "")
    fastener = derived.shelf.fastener(used.rpartition(":")[0])
    if length_mm is None or fastener is None:
        return None
    for off_mm in (sign * more for more in _THICKER_MM for sign in (1, -1)):
        false_mm = round(true_mm + off_mm, 1)
        if false_mm < _LEAST_MM:
            continue
        pattern = _with_layer(fitting.pattern, joint.joint, false_mm)
        post = Post(
            fastener=fastener,
            stack=stack_of(
                map(pattern.part, pattern.stack_parts(joint.joint.id)), joint.joint.washer_mm
            ),
            pinch_pct=derived.shelf.constants.pinch.value,
            own_mm=length_mm,
        )
        if not post.fits:
            text = reckoned(pattern, joint.joint, post).text
            holds = text.replace("does not hold.", "holds.")
            least, most = (mm_words(each) for each in post.window_mm)
            why = (
                f"Not true: {name} is {mm_words(true_mm)} mm thick, not {mm_words(false_mm)}. Were it "
                f"so, a post of {least} to {most} mm would be needed, and {length_mm:g} mm would not hold."
            )
            return Untrue(text=holds, why_not=why)
    return None


def _with_layer(pattern: Pattern, joint: Joint, thick_mm: float) -> Pattern:
    """Return a pattern whose outermost part at a joint has another thickness."""
    outer = pattern.stack_parts(joint.id)[0]
    parts = tuple(
        replace(part, thickness_mm=thick_mm, least_mm=None) if part.id == outer else part
        for part in pattern.parts
    )
    return replace(pattern, parts=parts)
