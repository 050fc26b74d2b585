"""What is wrong with a fastener at its joints: its kind, its motion, the length of its post."""

from collections.abc import Iterator, Sequence
from math import ceil

from armorplan.geometry.stacks import LONG_MM, Post, foot_of
from armorplan.geometry.told import begun, listed, quoted
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Joint, Motion
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import CLAMPS, TURNS, Fastener

_NAMED = 3
"""So many joints or parts are named in a message; the rest are counted."""
_LEAST_SHARE = 0.01
_SHORT = {
    "cap": "It would pop off.",
    "bent": "There is too little to roll or bend over, and it would pop off.",
    "burr": "Its tail is too short to be domed over the burr.",
    "screw": "It would crush the layers before its screw is home.",
}
_LONG = {
    "cap": "It would lean, or dent its cap.",
    "bent": "It would lean, or its head stand off.",
    "burr": "More of it is cut off than is worth buying.",
    "screw": "It would leave the layers loose.",
}
"""What comes of it, by what is on the inside (common practice, no source)."""


def who(pattern: Pattern, joints: Sequence[str]) -> str:
    """Name joints and what they hold, as far as a sentence bears it."""
    parts = dict.fromkeys(p for joint in joints for p in pattern.stack_parts(joint))
    names = listed([pattern.part(part).name for part in parts], named=_NAMED, last=", ")
    if len(joints) == 1:
        return f"Joint '{joints[0]}' ({names})"
    ids = listed(quoted(joints), named=_NAMED, last=", ")
    return f"{len(joints)} joints ({ids}; in {names})"


def stack_words(post: Post) -> str:
    """Say how thick a stack is, and how thick once pinched."""
    stack = post.stack
    washer = f" with {stack.washer_mm:g} mm of washers" if stack.washer_mm else ""
    return f"the stack is {stack.most_mm:.1f} mm{washer}, {post.pinched_mm:.1f} mm pinched"


def wrong_kind(joint: Joint, fastener: Fastener) -> Iterator[Finding]:
    """Yield a finding where a joint and its fastener are of two kinds."""
    if fastener.kind != joint.kind:
        yield Finding(
            code="fastener-wrong-kind",
            severity=Severity.ERROR,
            text=f"Joint '{joint.id}' is a {joint.kind} but '{fastener.id}' is a {fastener.kind}.",
            remedy=f'Write kind = "{fastener.kind}", or name a {joint.kind} as its fastener.',
            about=(joint.id,),
        )


def wrong_motion(
    pattern: Pattern, joints: Sequence[Joint], fastener: Fastener
) -> Iterator[Finding]:
    """Yield a finding for joints that move on a post that clamps, or are held by one that turns.

    A washer between the layers lets them turn on a clamping post too (common practice, no source).
    """
    if fastener.motion == CLAMPS:
        moving = [j.id for j in joints if j.motion is not Motion.FIXED and not j.washer_mm]
        if moving:
            yield _clamped(pattern, moving, fastener)
    elif fastener.motion == TURNS:
        fixed = [j.id for j in joints if j.motion is Motion.FIXED]
        if fixed:
            yield _loose(pattern, fixed, fastener)


def _clamped(pattern: Pattern, joints: Sequence[str], fastener: Fastener) -> Finding:
    they = "it has" if len(joints) == 1 else "they have"
    return Finding(
        code="fastener-wrong-motion",
        severity=Severity.WARNING,
        text=f"{who(pattern, joints)}: {they} to move, but {fastener.name} clamps: its post is no "
        "longer than the pinched stack.",
        remedy="Choose a fastener that lets the layers turn, or put a washer between them "
        "(washer_mm).",
        about=tuple(joints),
    )


def _loose(pattern: Pattern, joints: Sequence[str], fastener: Fastener) -> Finding:
    least_mm, most_mm = fastener.over_stack_mm
    return Finding(
        code="fastener-wrong-motion",
        severity=Severity.WARNING,
        text=f"{who(pattern, joints)}: fixed, but {fastener.name} leaves {least_mm:.1f} to "
        f"{most_mm:.1f} mm of play, so that the layers shift and wear on it.",
        remedy='Choose a fastener that clamps, or write motion = "turning" if they are to move.',
        about=tuple(joints),
    )


def post_length(pattern: Pattern, post: Post, joints: Sequence[str]) -> Iterator[Finding]:
    """Yield what is wrong with the length of a post for the joints that share it."""
    if post.own_mm is not None:
        yield from _own_length(pattern, post, joints)
    elif post.length_mm is None:
        yield _no_post(pattern, post, joints)
    elif post.length_mm > post.thin_window_mm[1] + LONG_MM:
        yield _too_long(pattern, post, joints)


def _own_length(pattern: Pattern, post: Post, joints: Sequence[str]) -> Iterator[Finding]:
    (least_mm, most_mm), off_mm, sold_mm = post.window_mm, post.off_mm, post.sold_mm
    if post.fits:
        return
    short = off_mm < 0
    off = f"{abs(off_mm):.1f} mm too {'short' if short else 'long'}"
    yield Finding(
        code=f"post-too-{'short' if short else 'long'}",
        severity=Severity.WARNING,
        text=(
            f"{who(pattern, joints)}: {stack_words(post)}; the {post.own_mm:g} mm post is {off}: "
            f"{post.fastener.name} needs {least_mm:.1f} to {most_mm:.1f} mm. "
            f"{(_SHORT if short else _LONG)[foot_of(post.fastener)]}"
        ),
        remedy=mend(post) if sold_mm is None else f"Take the {sold_mm:g} mm post (post_mm).",
        about=tuple(joints),
    )


def _no_post(pattern: Pattern, post: Post, joints: Sequence[str]) -> Finding:
    (least_mm, most_mm), fastener = post.window_mm, post.fastener
    on_sale = " and ".join(f"{length:g}" for length in _nearest_mm(post))
    return Finding(
        code="no-post-length",
        severity=Severity.WARNING,
        text=(
            f"{who(pattern, joints)}: {stack_words(post)}; {fastener.name} needs a post of "
            f"{least_mm:.1f} to {most_mm:.1f} mm; the nearest on sale {on_sale} mm."
        ),
        remedy=mend(post),
        about=tuple(joints),
    )


def _nearest_mm(post: Post) -> Iterator[float]:
    """Yield the posts on sale right below and right above what is needed, in mm."""
    least_mm, most_mm = post.window_mm
    yield from sorted(mm for mm in post.fastener.lengths_mm if mm < least_mm)[-1:]
    yield from sorted(mm for mm in post.fastener.lengths_mm if mm > most_mm)[:1]


def mend(post: Post) -> str:
    """Say by how much thinner or thicker the stack takes a post on sale, the smaller change first."""
    offers = sorted(each for each in (_thinner(post), _thicker(post)) if each is not None)
    if not offers:
        return "Choose a fastener with longer posts."
    words = ", or ".join(words for _, words in offers)
    return f"{begun(words)}; or choose another fastener."


_Offer = tuple[float, str]
"""By how many mm a stack is changed, and the words for it."""


def _thinner(post: Post) -> _Offer | None:
    """Return what has to come off for the next shorter post; washers first, they do not give."""
    least_mm, stack = post.window_mm[0], post.stack
    shorter = [length for length in post.fastener.lengths_mm if length < least_mm]
    if not shorter:
        return None
    fits = f"for the {max(shorter):g} mm post"
    over_mm = _up(least_mm - max(shorter))
    if over_mm <= stack.washer_mm:
        return over_mm, f"take {over_mm:.1f} mm off the washers (washer_mm) {fits}"
    over_mm = _up((least_mm - max(shorter)) / max(1 - post.pinch_pct / 100, _LEAST_SHARE))
    if over_mm >= stack.most_mm - stack.washer_mm:
        return None
    return over_mm, f"skive {over_mm:.1f} mm off the layers {fits}"


def _thicker(post: Post) -> _Offer | None:
    """Return what washers have to be added for the next longer post to fit well."""
    least_mm, most_mm = post.window_mm
    longer = [length for length in post.fastener.lengths_mm if length > most_mm]
    if not longer:
        return None
    washer_mm = min(longer) - (least_mm + most_mm) / 2
    more = "more" if post.stack.washer_mm else "of"
    return washer_mm, (
        f"add {washer_mm:.1f} mm {more} washers (washer_mm) for the {min(longer):g} mm post"
    )


def _up(value_mm: float) -> float:
    return ceil(round(10 * value_mm, 6)) / 10


def _too_long(pattern: Pattern, post: Post, joints: Sequence[str]) -> Finding:
    length_mm, stack = post.length_mm or 0.0, post.stack
    shorter = post.thin_sold_mm
    thin = f"a {shorter:g} mm post" if shorter else "no post on sale without a washer"
    return Finding(
        code="measure-before-buying",
        severity=Severity.NOTE,
        text=(
            f"{who(pattern, joints)}: the {length_mm:g} mm post of {post.fastener.name} is for the "
            f"upper end of the leather, {stack.most_mm:.1f} mm; at the lower end, "
            f"{stack.least_mm:.1f} mm, it is {length_mm - post.thin_window_mm[1]:.1f} mm too long, "
            f"and {thin} fits."
        ),
        remedy="Measure the stack before you buy the posts.",
        about=tuple(joints),
    )
