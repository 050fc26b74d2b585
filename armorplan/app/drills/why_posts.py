"""The second question of a post: which sum is that of its stack? The others are reckoned wrongly."""

import random
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.drills.fastener_choices import fitting_of
from armorplan.app.drills.fastener_faults import Offer
from armorplan.app.drills.fastener_sums import layers_of, mm_words
from armorplan.geometry.stacks import Post
from armorplan.practice.drill import Choice, Drill, Judged, WhyAsked

_MOST, _FEWEST = 4, 3
_APART_MM = 0.05
"""Sums nearer than this to one another read as the same one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """What layers come to under a fastener, in mm, and of one that is not right what is wrong with it."""

    pinched_mm: float
    wrong: str = ""

    @property
    def text(self) -> str:
        """The sum alone: what post it asks for would tell the right one without reckoning."""
        return f"To {mm_words(self.pinched_mm)} mm."


def post_asked(
    derived: Derived, drill: Drill, judged: Judged, chance: random.Random
) -> WhyAsked | None:
    """Return which sum is asked for; ``None`` where too few wrong ones differ from it."""
    right = drill.choice(judged.nearest[0])
    used, _, length = right.id.rpartition(":")
    fastener = derived.shelf.fastener(used)
    joint = derived.assembly.joint(drill.choices[0].joints[0])
    if fastener is None:
        return None
    fitting = fitting_of(derived, joint)
    post = fitting.post(Offer(fastener=fastener, length_mm=float(length)))
    layers = tuple(mm for _, mm in layers_of(fitting.pattern, joint.joint))
    told = [_true(post), *_some(_wrong(post, layers), post, chance)]
    if len(told) < _FEWEST:
        return None
    chance.shuffle(told)
    ids = {f"reason-{at}": one for at, one in enumerate(told, start=1)}
    return WhyAsked(
        question=(
            f"To what do the layers of '{_title(derived, joint.id)}' come under the fastener, so that "
            f"'{right.title}' holds?"
        ),
        choices=tuple(Choice(id=name, title=one.text) for name, one in ids.items()),
        right=next(name for name, one in ids.items() if not one.wrong),
        because=tuple(
            (
                name,
                f"{mm_words(one.pinched_mm)} mm {one.wrong or _right(post)}",
            )
            for name, one in ids.items()
        ),
    )


def _title(derived: Derived, joint: str) -> str:
    step = derived.work.setting(joint)
    return joint if step is None else step.title


def _right(post: Post) -> str:
    more = ", and washers do not" if post.stack.washer_mm else ""
    least, most = (mm_words(each) for each in post.window_mm)
    return (
        f"is right: leather gives {post.pinch_pct:g} % under a fastener{more}. A post of {least} to "
        f"{most} mm holds that."
    )


def _true(post: Post) -> Sum:
    return Sum(pinched_mm=post.pinched_mm)


def _wrong(post: Post, layers: tuple[float, ...]) -> Iterator[Sum]:
    """Yield sums as they go wrong at a bench, each with what is wrong with it."""
    washers_mm, pinch = post.stack.washer_mm, post.pinch_pct / 100
    leather_mm = post.stack.most_mm - washers_mm

    def made(pinched_mm: float, wrong: str) -> Sum:
        return Sum(pinched_mm=pinched_mm, wrong=wrong)

    soft = f"leather gives {post.pinch_pct:g} % under a fastener"
    yield made(post.stack.most_mm, f"is not right: that is the stack as it lies, and {soft}.")
    yield made(
        leather_mm * (1 - 2 * pinch) + washers_mm,
        f"is not right: {soft}, and that is taken off once, not for each face.",
    )
    if washers_mm:
        yield made(
            leather_mm * (1 - pinch),
            "is not right: it leaves the washers out, which stay as thick.",
        )
        yield made(
            post.stack.most_mm * (1 - pinch),
            "is not right: it draws the washers together as well, and these do not give.",
        )
    for left_out_mm in sorted(set(layers)):
        yield made(
            (leather_mm - left_out_mm) * (1 - pinch) + washers_mm,
            f"is not right: a layer of {mm_words(left_out_mm)} mm is missing in it.",
        )
    yield made(
        leather_mm * (1 + pinch) + washers_mm,
        f"is not right: {soft}, so that it gets thinner, not thicker.",
    )


def _some(wrong: Iterable[Sum], post: Post, chance: random.Random) -> list[Sum]:
    """Return a few that differ from what is right and from one another."""
    found: list[Sum] = []
    for one in wrong:
        others = (_true(post), *found)
        if all(abs(one.pinched_mm - each.pinched_mm) > _APART_MM for each in others):
            found.append(one)
    return chance.sample(found, min(len(found), _MOST - 1))
