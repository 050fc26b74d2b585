"""A whole chain of lames: how far the limb bends, and what that asks of each two plates."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from armorplan.geometry.lames.chains import Chain, Turn
from armorplan.geometry.lames.left import capacity_deg, opens
from armorplan.geometry.lames.links import CIRCLE
from armorplan.geometry.lames.sides import least_left_mm
from armorplan.geometry.lames.strip import strip
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.workshop.constants import Constants


def _known(chain: Chain) -> list[Turn]:
    return [turn for turn in chain.turns if turn.link is not None and turn.overlap_mm is not None]


def _verdict(chain: Chain, known: list[Turn], constants: Constants) -> str:
    if not known:
        return "not on two pivots"
    if chain.movement is None:
        return f"turns {sum(map(capacity_deg, known)):.0f}° before a gap opens"
    left = [value for value in map(least_left_mm, known) if value is not None]
    least = min(left)
    if opens(least, constants):
        return f"a gap of {-least:.1f} mm opens"
    said = f"bends {chain.movement.angle_deg:g}°, at least {max(least, 0.0):.1f} mm stay under"
    return said if least >= constants.kept_cover.value else f"{said}: little"


def _text(chain: Chain, known: list[Turn], kept_mm: float) -> str:
    opens = sum(map(capacity_deg, known))
    little = sum(capacity_deg(turn, kept_mm) for turn in known)
    sums = (
        f"All pairs together turn {opens:.0f}° before gaps open, and {little:.0f}° while {kept_mm:g} mm stay under "
        "each neighbour."
        if known
        else "How far it opens cannot be told."
    )
    loose = len(chain.turns) - len(known)
    beside = (
        f" {loose} of {len(chain.turns)} pairs do not hang on two pivots, the right way round and with "
        "leather between them at the back: nothing is reckoned of these."
        if loose
        else ""
    )
    if chain.movement is None:
        return f"No movement is declared for it. {sums}{beside}"
    return f"The limb bends {chain.movement.angle_deg:g}°, {_shares(chain)}. {sums}{beside}"


def _shares(chain: Chain) -> str:
    shares = [f"{turn.turn_deg or 0.0:.1f}°" for turn in chain.turns]
    if len(set(shares)) > 1:
        return f"shared as {', '.join(shares)}"
    return "all between two plates" if len(shares) == 1 else f"each pair {shares[0]}"


def _figures(chain: Chain, known: list[Turn], kept_mm: float) -> Iterator[Figure]:
    if chain.movement is not None:
        angle, pairs = chain.movement.angle_deg, len(chain.turns)
        shares = [turn.turn_deg or 0.0 for turn in chain.turns]
        alike = not chain.movement.shares_deg
        yield Figure(
            name="each pair turns" if alike else "the pairs turn",
            value=angle / pairs if alike else angle,
            unit="°",
            formula=f"{angle:g} / {pairs} = {angle / pairs:.1f}°"
            if alike
            else " + ".join(f"{share:g}" for share in shares) + f" = {angle:g}°",
            source=CIRCLE if alike else "as the pattern says",
        )
    for name, kept in (
        ("turns before gaps open", 0.0),
        (f"turns while {kept_mm:g} mm stay", kept_mm),
    ):
        parts = [capacity_deg(turn, kept) for turn in known]
        yield Figure(
            name=name,
            value=sum(parts),
            unit="°",
            formula=" + ".join(f"{part:.1f}" for part in parts) + f" = {sum(parts):.1f}°",
            source=CIRCLE,
        )


def _upside_down(chain: Chain) -> Finding:
    movement = chain.id if chain.movement is None else chain.movement.name
    return Finding(
        code="movement-upside-down",
        severity=Severity.NOTE,
        text=f"'{movement}' names its parts from the lower end of the limb to the upper one.",
        remedy="Look first whether the stacks of the pivots mix up the upper and the lower holes of a part. If they "
        "are as meant, name the uppermost first, or mend up_deg of the parts.",
        about=(chain.id, *chain.parts),
    )


@lru_cache(maxsize=256)
def chain_measure(chain: Chain, constants: Constants) -> Measure:
    """Return what a chain tells as a whole, with its strip of positions."""
    kept_mm = constants.kept_cover.value
    known = _known(chain)
    ends = f"{chain.names[0]} to {chain.names[-1]}"
    joints = [joint for turn in known if turn.link for joint in turn.link.joints]
    return Measure(
        id=f"lames:{chain.id}",
        topic=Topic.LAMES,
        title=ends if chain.movement is None else f"{chain.movement.name}: {ends}",
        verdict=_verdict(chain, known, constants),
        text=_text(chain, known, kept_mm),
        figures=tuple(_figures(chain, known, kept_mm)) if known else (),
        findings=(_upside_down(chain),) if chain.upside_down else (),
        about=(*chain.parts, *joints),
        picture=strip(chain.turns, constants),
    )


def summed(chain: Measure, found: Sequence[Measure]) -> Measure:
    """Return what a chain tells, as grave as the worst of its pairs, slots and inner leathers.

    They tell the findings themselves, so that each is told once; the first of the worst is named.
    """
    order = tuple(Severity)
    grave = [each for each in found if each.severity is not None]
    if not grave:
        return chain
    worst = min(grave, key=lambda each: order.index(each.severity or order[-1]))
    verdict = f"{worst.verdict}: {worst.title}"
    return replace(chain, carries=worst.severity, verdict=verdict)
