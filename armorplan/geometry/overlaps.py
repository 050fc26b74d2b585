"""Parts that overlap on a third one while no stack tells which of them lies outside."""

from collections import defaultdict
from collections.abc import Iterator

from armorplan.geometry.covering import Overlap, open_heads
from armorplan.geometry.told import listed, quoted
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

_Two = tuple[str, str]


def overlap_findings(pattern: Pattern, shelf: Shelf) -> Iterator[Finding]:
    """Yield a note for each two parts of which one would hide heads of the other, if it lay outside.

    A part that hides a joint of the other by declaration (``Part.hides``) has told it.
    """
    place = {part.id: at for at, part in enumerate(pattern.parts)}
    found: dict[_Two, list[Overlap]] = defaultdict(list)
    for over in open_heads(pattern, shelf):
        one, other = sorted((over.cover, over.lies_on), key=place.__getitem__)
        found[one, other].append(over)
    for two, overlaps in found.items():
        if not _declared(pattern, two):
            yield _open(pattern, two, overlaps)


def _declared(pattern: Pattern, two: _Two) -> bool:
    one, other = two
    return any(
        over in pattern.stack_parts(joint)
        for part, over in ((one, other), (other, one))
        for joint in pattern.part(part).hides
    )


def _open(pattern: Pattern, two: _Two, overlaps: list[Overlap]) -> Finding:
    one, other = (pattern.part(part).name for part in two)
    joints = dict.fromkeys(over.joint for over in overlaps)
    ways = []
    for cover in dict.fromkeys(over.cover for over in overlaps):
        hidden = ", ".join(f'"{over.joint}"' for over in overlaps if over.cover == cover)
        ways.append(f"hides = [{hidden}] under [parts.{cover}]")
    return Finding(
        code="which-lies-outside",
        severity=Severity.NOTE,
        text=(
            f"{one[:1].upper()}{one[1:]} and {other} overlap at the "
            f"{'head' if len(joints) == 1 else 'heads'} of {listed(quoted(joints))}, and no stack "
            "tells which of them lies outside."
        ),
        remedy=f"In the one that lies outside say {', or '.join(ways)}: what it hides is then set "
        "before it.",
        about=(*two, *joints),
    )
