"""Fasteners and their posts: one measure for joints that share a stack, one for a part's holes."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from armorplan.geometry.holes.measuring import hole_measures
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.pictures import Layer, StackPicture
from armorplan.geometry.posts.findings import (
    post_length,
    stack_words,
    wrong_kind,
    wrong_motion,
)
from armorplan.geometry.stacks import POSTED, Post, foot_of, joint_post
from armorplan.geometry.told import begun
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding
from armorplan.pattern.joining import Joint, Motion
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import PRACTICE
from armorplan.workshop.shelf import Fastener, Shelf


def post_measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield the stack and post of each group of joints alike, then the holes that are at fault.

    Posts are chosen for the upper end of leather sold as a range.
    """
    alike: dict[Post, list[Joint]] = defaultdict(list)
    for joint in pattern.joints:
        post = joint_post(pattern, shelf, joint)
        if post is not None:
            alike[post].append(joint)
        elif joint.kind not in POSTED and (fastener := shelf.fastener(joint.fastener)):
            yield from _no_place(joint, fastener)
    for post, joints in alike.items():
        yield _measure(pattern, shelf, post, joints)
    yield from hole_measures(pattern, shelf)


def _no_place(joint: Joint, fastener: Fastener) -> Iterator[Measure]:
    """Yield a joint that takes no post but names a fastener with one."""
    for finding in wrong_kind(joint, fastener):
        yield Measure(
            id=f"posts:{joint.id}",
            topic=Topic.POSTS,
            title=f"{fastener.name}: joint '{joint.id}'",
            verdict="wrong kind",
            text=finding.text,
            findings=(finding,),
            about=(joint.id,),
        )


def _measure(pattern: Pattern, shelf: Shelf, post: Post, joints: Sequence[Joint]) -> Measure:
    ids = [joint.id for joint in joints]
    found: tuple[Finding, ...] = (
        *(each for joint in joints for each in wrong_kind(joint, post.fastener)),
        *wrong_motion(pattern, joints, post.fastener),
        *post_length(pattern, post, ids),
    )
    parts = dict.fromkeys(part for joint in ids for part in pattern.stack_parts(joint))
    return Measure(
        id=f"posts:{min(ids)}",
        topic=Topic.POSTS,
        title=_title(pattern, post, ids),
        verdict=_verdict(post),
        text=_text(post),
        figures=tuple(_figures(pattern, shelf, post, ids[0])),
        findings=found,
        about=(*ids, *parts),
        picture=stack_picture(pattern, post, joints[0]),
    )


def _title(pattern: Pattern, post: Post, joints: Sequence[str]) -> str:
    stacks = dict.fromkeys(pattern.stack_parts(joint) for joint in joints)
    layers = " on ".join(pattern.part(part).name for part in next(iter(stacks)))
    more = len(stacks) - 1
    others = f", and {more} other stack{'s' * (more > 1)} as thick" if more else ""
    count = "" if len(joints) == 1 else f"{len(joints)} × "
    return f"{count}{post.fastener.name}: {layers}{others}"


def _verdict(post: Post) -> str:
    length_mm = post.length_mm
    if length_mm is None:
        return "no post on sale fits"
    off_mm = post.off_mm
    if post.fits:
        return f"post {length_mm:g} mm"
    return f"post {length_mm:g} mm, {abs(off_mm):.1f} mm too {'short' if off_mm < 0 else 'long'}"


def _text(post: Post) -> str:
    (least_mm, most_mm), words = post.window_mm, stack_words(post)
    needs = f"{post.fastener.name} needs a post of {least_mm:.1f} to {most_mm:.1f} mm"
    if post.own_mm is not None:
        takes = f"the pattern names one of {post.own_mm:g} mm"
    elif post.length_mm is None:
        takes = "none on sale fits"
    else:
        takes = f"the shortest on sale that holds is {post.length_mm:g} mm"
    return f"{begun(words)}. {needs}; {takes}."


def _mm(value_mm: float) -> str:
    return f"{value_mm:.2f}".rstrip("0").rstrip(".")


def _figures(pattern: Pattern, shelf: Shelf, post: Post, joint: str) -> Iterator[Figure]:
    stack, pinch = post.stack, shelf.constants.pinch
    layers = [_mm(pattern.part(part).thickness_mm) for part in pattern.stack_parts(joint)]
    washer = f" + {_mm(stack.washer_mm)} of washers" if stack.washer_mm else ""
    ranged = stack.least_mm < stack.most_mm
    yield Figure(
        name="stack, upper end of the leather" if ranged else "stack",
        value=stack.most_mm,
        unit="mm",
        formula=f"{' + '.join(layers)}{washer} = {_mm(stack.most_mm)} mm",
        source="the thicknesses that the pattern gives",
    )
    most, washers = _mm(stack.most_mm), _mm(stack.washer_mm)
    soft, back = (f"({most} - {washers})", f" + {washers}") if stack.washer_mm else (most, "")
    yield Figure(
        name="pinched stack",
        value=post.pinched_mm,
        unit="mm",
        formula=f"{soft} × (1 - {pinch.value:g} / 100){back} = {post.pinched_mm:.2f} mm",
        source=pinch.source,
    )
    for at, name in enumerate(("shortest post that holds", "longest post that holds")):
        over_mm, window_mm = post.fastener.over_stack_mm[at], post.window_mm[at]
        sign = "+" if over_mm >= 0 else "-"
        yield Figure(
            name=name,
            value=window_mm,
            unit="mm",
            formula=f"{post.pinched_mm:.2f} {sign} {abs(over_mm):g} = {window_mm:.2f} mm",
            source=post.fastener.source,
        )
    yield from _post_figures(post, ranged=ranged)


def _post_figures(post: Post, *, ranged: bool) -> Iterator[Figure]:
    length_mm = post.length_mm
    if length_mm is not None:
        on_sale = ", ".join(f"{each:g}" for each in post.fastener.lengths_mm)
        yield Figure(
            name="post",
            value=length_mm,
            unit="mm",
            formula=f"the shortest of {on_sale} mm that holds"
            if post.own_mm is None
            else "as the pattern names it (post_mm)",
            source=post.fastener.source if post.own_mm is None else "the maker's own",
        )
    if ranged:
        yield Figure(
            name="longest post at the lower end of the leather",
            value=post.thin_window_mm[1],
            unit="mm",
            formula=f"the same with a stack of {post.stack.least_mm:.1f} mm",
            source=PRACTICE,
        )


def stack_picture(pattern: Pattern, post: Post, joint: Joint) -> StackPicture:
    """Return the section through a joint, its layers as they are pinched.

    Washers lie where they are of use: under the outermost layer of a joint that moves, else inside
    under the foot.
    """
    share = 1 - post.pinch_pct / 100
    layers = [
        Layer(name=part.name, thick_mm=part.thickness_mm * share, kind=part.kind.value)
        for part in map(pattern.part, pattern.stack_parts(joint.id))
    ]
    if joint.washer_mm:
        at = len(layers) if joint.motion is Motion.FIXED else 1
        layers.insert(at, Layer(name="washers", thick_mm=joint.washer_mm, kind="washer"))
    fastener = post.fastener
    return StackPicture(
        layers=tuple(layers),
        post_mm=post.length_mm,
        window_mm=post.window_mm,
        head_mm=fastener.head_mm,
        hole_mm=fastener.hole_mm,
        foot=foot_of(fastener),
    )
