"""How long the post of a joint has to be, reckoned step by step as at the bench."""

from collections.abc import Iterator

from armorplan.geometry.stacks import Post
from armorplan.geometry.told import begun
from armorplan.pattern.joining import Joint
from armorplan.pattern.pattern import Pattern
from armorplan.practice.drill import Because
from armorplan.practice.reason_names import POST_LENGTH, REASON_NAMES
from armorplan.relations.model import Quantity

LAYER, WASHERS, STACK, PINCHED = "layer", "washers", "stack", "pinched stack"
SHORTEST, LONGEST, POST = "shortest post that holds", "longest post that holds", "post"


def mm_words(value_mm: float) -> str:
    """Return a length to a hundredth of a millimetre, without noughts behind."""
    words = f"{value_mm:.2f}"
    return words.rstrip("0").rstrip(".")


def reckoned(pattern: Pattern, joint: Joint, post: Post) -> Because:
    """Return why a post holds the stack of a joint, or not: the sum, in mm.

    Leather sold as a range is reckoned at its upper end; where one holds both ends are looked at.
    """
    numbers = tuple(_numbers(pattern, joint, post))
    return Because(
        rule=POST_LENGTH,
        name=REASON_NAMES[POST_LENGTH],
        text=" ".join(_sentences(pattern, joint, post)),
        source=post.fastener.source,
        numbers=tuple(f"{one.name} {mm_words(one.value)} {one.unit}" for one in numbers),
        exact=numbers,
    )


def layers_of(pattern: Pattern, joint: Joint) -> tuple[tuple[str, float], ...]:
    """Return the layers of a joint, the outermost first: what each is called, and its mm."""
    parts = map(pattern.part, pattern.stack_parts(joint.id))
    return tuple((part.name, part.thickness_mm) for part in parts)


def over_words(post: Post) -> str:
    """Say how far beyond the pinched stack the post of this fastener goes."""
    least_mm, most_mm = post.fastener.over_stack_mm
    if least_mm < 0:
        near = (
            "ends right at it" if most_mm == 0 else f"goes at most {mm_words(most_mm)} mm beyond"
        )
        return f"ends at most {mm_words(-least_mm)} mm short of it, or {near}"
    return f"goes {mm_words(least_mm)} to {mm_words(most_mm)} mm beyond it"


def _sentences(pattern: Pattern, joint: Joint, post: Post) -> Iterator[str]:
    thick = [mm_words(mm) for _, mm in layers_of(pattern, joint)]
    washer_mm, stack = post.stack.washer_mm, mm_words(post.stack.most_mm)
    more = f" + {mm_words(washer_mm)} of washers" if washer_mm else ""
    yield f"The layers are {' + '.join(thick)}{more} = {stack} mm."
    soft = f"({stack} - {mm_words(washer_mm)})" if washer_mm else stack
    back = f" + {mm_words(washer_mm)}" if washer_mm else ""
    pinched = mm_words(post.pinched_mm)
    yield f"Drawn together they are {soft} × (1 - {post.pinch_pct:g} / 100){back} = {pinched} mm."
    least, most = (mm_words(each) for each in post.window_mm)
    name = begun(post.fastener.name)
    yield f"The post of a {_lowered(name)} {over_words(post)}: {least} to {most} mm."
    if post.own_mm is not None:
        yield f"So {post.own_mm:g} mm {'holds' if post.fits else 'does not hold'}."


def _lowered(name: str) -> str:
    return f"{name[:1].lower()}{name[1:]}"


def _numbers(pattern: Pattern, joint: Joint, post: Post) -> Iterator[Quantity]:
    for _, thick_mm in layers_of(pattern, joint):
        yield Quantity(name=LAYER, value=thick_mm, unit="mm")
    if post.stack.washer_mm:
        yield Quantity(name=WASHERS, value=post.stack.washer_mm, unit="mm")
    yield Quantity(name=STACK, value=post.stack.most_mm, unit="mm")
    yield Quantity(name=PINCHED, value=post.pinched_mm, unit="mm")
    yield Quantity(name=SHORTEST, value=post.window_mm[0], unit="mm")
    yield Quantity(name=LONGEST, value=post.window_mm[1], unit="mm")
    if post.own_mm is not None:
        yield Quantity(name=POST, value=post.own_mm, unit="mm")
