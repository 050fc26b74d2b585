"""What is read of rows side by side, and what it comes to in a few words."""

from collections.abc import Sequence
from typing import NamedTuple

from armorplan.geometry.bends.ways import Way
from armorplan.geometry.rows.bends import Wider
from armorplan.geometry.rows.beside import Beside
from armorplan.geometry.rows.crossed import CROSSED
from armorplan.geometry.rows.faults import Out, Reading
from armorplan.geometry.rows.shift import Wrong
from armorplan.kernel.findings import Finding

_LEAST_UNEVEN = 2


class Read(NamedTuple):
    """What is read of a bundle: its rows, what is out in them, and all that is told of it.

    Attributes:
        parts: a bend parts the holes of two of its rows, so that they meet only as long as it is flat.
    """

    readings: tuple[Reading, ...]
    found: tuple[Out, ...]
    aside: tuple[Beside, ...]
    told: tuple[Finding, ...]
    parts: bool


def is_crossed(read: Read) -> bool:
    """Tell whether holes are exchanged in the stacks of a row."""
    return any(finding.code == CROSSED for finding in read.told)


def verdict(read: Read) -> str:
    """Say in a few words what rows come to: the worst fault, else what their bends make of them."""
    if is_crossed(read):
        return "crosses itself"
    if read.found:
        return _fault_verdict(read.found)
    codes = {finding.code for finding in read.told}
    if codes & {"sides-disagree", "row-other-way"}:
        return "look at which way round it goes"
    if read.aside:
        return "a hole lies beside its row"
    if read.told:
        return "look at its joints"
    sound = _sound_verdict([each.wider for each in read.readings if each.wider.counts])
    return "meet flat" if read.parts and sound == "meet" else sound


def _sound_verdict(wider: Sequence[Wider]) -> str:
    """Say of rows that hold no fault what the bends make of those that are longer for them."""
    if any(each.is_made_for for each in wider):
        return str(Way.MADE_BENT)
    if not all(each.known for each in wider):
        return str(Way.UNTOLD)
    part = next((each for each in wider if each.is_part), None)
    return f"longer by {part.longer_mm:.1f} of {part.asked_mm:.1f} mm" if part else "meet"


def _fault_verdict(found: Sequence[Out]) -> str:
    worst = max(found, key=lambda out: abs(out.fault.off_mm))
    off_mm, at = abs(worst.fault.off_mm), worst.reading.run.numbers[worst.fault.at] + 1
    spacings = sum(out.fault.wrong is Wrong.SPACING for out in found)
    return {
        Wrong.HOLE: f"hole {at} is {off_mm:.1f} mm out",
        Wrong.BEYOND: f"{len(worst.holes)} holes are {off_mm:.1f} mm out",
        Wrong.LONGER: f"one row is {off_mm:.1f} mm longer per spacing",
        Wrong.OTHER_WAY: "one row runs the other way",
        Wrong.SPACING: f"holes {at} and {at + 1} miss by {off_mm:.1f} mm"
        if spacings < _LEAST_UNEVEN
        else f"uneven by up to {off_mm:.1f} mm",
    }[worst.fault.wrong]
