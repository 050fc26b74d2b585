"""Names for parts: a text in the part, else the nearest one beside it, else the file's own name."""

from collections.abc import Sequence
from math import inf

from armorplan.geometry.brought.lines import Drawn
from armorplan.geometry.brought.model import Lettering
from armorplan.geometry.brought.nesting import Nest
from armorplan.kernel.stopping import ShouldStop, go_on

REACH_MM = 25.0
"""A text farther from every part names none."""
_HIGH = 3.0
_LONGEST = 60


def names_of(
    lines: Sequence[Drawn],
    nest: Nest,
    parts: Sequence[int],
    texts: Sequence[Lettering],
    should_stop: ShouldStop,
) -> dict[int, str]:
    """Return names by the place of what they name; ``texts`` are in mm."""
    found = {n: line.name for n, line in enumerate(lines) if line.name}
    found |= {n: lines[n].group for n in parts if lines[n].group and n not in found}
    for n, text in _told(nest, parts, texts, should_stop).items():
        found[n] = text
    return found


def _told(
    nest: Nest, parts: Sequence[int], texts: Sequence[Lettering], should_stop: ShouldStop
) -> dict[int, str]:
    import shapely

    texts = [text for text in texts if _names(text.text)]
    if not parts or not texts:
        return {}
    tree = shapely.STRtree([nest.areas[n] for n in parts])
    inside: dict[int, list[Lettering]] = {}
    beside: dict[int, tuple[float, str]] = {}
    for text in texts:
        go_on(should_stop)
        spot = shapely.Point(text.at)
        holders = [parts[n] for n in tree.query(spot, predicate="intersects").tolist()]
        if holders:
            inner = min(holders, key=lambda n: (nest.areas[n].area, n))
            inside.setdefault(inner, []).append(text)
            continue
        reach = max(REACH_MM, _HIGH * text.height)
        at, apart = tree.query_nearest(spot, max_distance=reach, return_distance=True)
        if len(at):
            nearest = parts[int(at.min())]
            if apart[0] <= beside.get(nearest, (inf, ""))[0]:
                beside[nearest] = float(apart[0]), text.text
    told = {n: text for n, (_, text) in beside.items()}
    told |= {n: max(found, key=lambda t: t.height).text for n, found in inside.items()}
    return {n: " ".join(text.split())[:_LONGEST] for n, text in told.items()}


def _names(text: str) -> bool:
    """Tell whether a text may be a name: it has a letter, or is a short number."""
    return any(c.isalpha() for c in text) or text.strip().isdigit()
