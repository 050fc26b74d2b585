"""What is wrong with a fastener and a post at a joint: by the same checks as a pattern's own."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from armorplan.app.drills.fastener_sums import reckoned
from armorplan.geometry.holes.sizes import HOLE_OFF_MM, needed_mm, wrong_size
from armorplan.geometry.posts.findings import post_length, wrong_motion
from armorplan.geometry.stacks import Post, joint_stack
from armorplan.geometry.straps.straps import strap_findings
from armorplan.geometry.told import begun
from armorplan.kernel.findings import Finding
from armorplan.pattern.joining import Joint
from armorplan.pattern.pattern import Pattern
from armorplan.practice.drill import Because
from armorplan.practice.reason_names import (
    CARRIES,
    CLAMPS_OR_TURNS,
    HOLE_WIDTH,
    OPENS_AGAIN,
    REASON_NAMES,
)
from armorplan.relations.model import Quantity
from armorplan.workshop.constants import PRACTICE
from armorplan.workshop.shelf import Fastener, Shelf

_LIGHT = "load-strap-held-lightly"


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A fastener of the shelf with one of its posts."""

    fastener: Fastener
    length_mm: float

    @property
    def id(self) -> str:
        """What it is called in answers: ``tubular_9:7.9``."""
        return f"{self.fastener.id}:{self.length_mm:g}"


class Fitting:
    """One joint, and what each offer would be worth there."""

    def __init__(self, pattern: Pattern, shelf: Shelf, joint: Joint) -> None:
        self.pattern, self.shelf, self.joint = pattern, shelf, joint
        self._light = self._too_light(joint)

    def post(self, offer: Offer) -> Post:
        """Return an offer as the post through this joint's stack."""
        return Post(
            fastener=offer.fastener,
            stack=joint_stack(self.pattern, self.joint),
            pinch_pct=self.shelf.constants.pinch.value,
            own_mm=offer.length_mm,
        )

    def is_clear(self, offer: Offer) -> bool:
        """Tell whether nothing is left to the calipers: it holds by its window, or is off for sure.

        Of leather sold as a range it has to hold at both ends, or at neither.
        """
        post = self.post(offer)
        return len({self._holds(post, window) for window in _windows(post)}) == 1 and (
            post.fits == self._holds(post, post.window_mm)
        )

    def _holds(self, post: Post, window_mm: tuple[float, float]) -> bool:
        return post.own_mm is not None and window_mm[0] <= post.own_mm <= window_mm[1]

    def faults(self, offer: Offer) -> tuple[Because, ...]:
        """Return why an offer will not do, what is wrong with the fastener first; empty: it does."""
        return (*self.unsuited(offer.fastener), *self._length(offer))

    def unsuited(self, fastener: Fastener) -> tuple[Because, ...]:
        """Return why a fastener will not do here at any length."""
        return (
            *self._kind(fastener),
            *self._motion(fastener),
            *self._holes(fastener),
            *self._load(fastener),
        )

    def _length(self, offer: Offer) -> Iterator[Because]:
        post = self.post(offer)
        for finding in post_length(self.pattern, post, (self.joint.id,)):
            if not post.fits:
                sums = reckoned(self.pattern, self.joint, post)
                yield replace(sums, text=self._told(finding.text))

    def _told(self, text: str, hole: str = "") -> str:
        """Return a finding as it is said of the one joint that is asked about, without its ids."""
        said = text.replace(f"Joint '{self.joint.id}'", "This joint", 1)
        return said.replace(f"Hole '{hole}'", "The hole", 1)

    def _kind(self, fastener: Fastener) -> Iterator[Because]:
        if fastener.kind != self.joint.kind:
            opens = "has to stay" if self.joint.kind.is_permanent else "has to come undone again"
            text = f"This joint {opens}: it is a {self.joint.kind}, and {fastener.name} is a {fastener.kind}."
            yield _because(OPENS_AGAIN, text, PRACTICE)

    def _motion(self, fastener: Fastener) -> Iterator[Because]:
        for finding in wrong_motion(self.pattern, (self.joint,), fastener):
            numbers = (
                Quantity(
                    name="least beyond the pinched stack",
                    value=fastener.over_stack_mm[0],
                    unit="mm",
                ),
                Quantity(
                    name="most beyond the pinched stack",
                    value=fastener.over_stack_mm[1],
                    unit="mm",
                ),
            )
            text = self._told(finding.text)
            yield _because(CLAMPS_OR_TURNS, text, fastener.source, numbers)

    def _holes(self, fastener: Fastener) -> Iterator[Because]:
        need_mm = needed_mm(self.joint, fastener)
        for hole in map(self.pattern.hole, dict.fromkeys(self.joint.stack)):
            if abs(hole.diameter_mm - need_mm) > HOLE_OFF_MM:
                part = self.pattern.part(hole.part)
                finding = wrong_size(part, fastener, need_mm, {hole: [self.joint.id]})
                numbers = (
                    Quantity(name="hole", value=hole.diameter_mm, unit="mm"),
                    Quantity(name="hole it needs", value=need_mm, unit="mm"),
                )
                text = self._told(finding.text, hole.id)
                yield _because(HOLE_WIDTH, text, fastener.source, numbers)
                return

    def _load(self, fastener: Fastener) -> Iterator[Because]:
        if fastener.load or fastener.kind != self.joint.kind:
            return
        for finding in self._too_light(replace(self.joint, fastener=fastener.id)):
            if finding not in self._light:
                yield _because(CARRIES, begun(finding.text), fastener.source)

    def _too_light(self, joint: Joint) -> tuple[Finding, ...]:
        hung = {each.part for each in self.pattern.suspensions}
        if hung.isdisjoint(self.pattern.stack_parts(joint.id)):
            return ()
        joints = tuple(joint if each.id == joint.id else each for each in self.pattern.joints)
        found = strap_findings(replace(self.pattern, joints=joints), self.shelf)
        return tuple(each for each in found if each.code == _LIGHT and joint.id in each.about)


def _windows(post: Post) -> Iterator[tuple[float, float]]:
    yield post.window_mm
    yield post.thin_window_mm


def _because(rule: str, text: str, source: str, numbers: tuple[Quantity, ...] = ()) -> Because:
    return Because(
        rule=rule,
        name=REASON_NAMES[rule],
        text=text,
        source=source,
        numbers=tuple(f"{one.name} {one.value:g} {one.unit}" for one in numbers),
        exact=numbers,
    )
