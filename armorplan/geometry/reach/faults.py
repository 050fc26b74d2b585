"""What of reach has to be known or mended: seams that cannot be read, tools, what nothing gets to."""

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from math import ceil

from armorplan.geometry.reach.bench import of_unknown_reach
from armorplan.geometry.reach.gathered import Reach
from armorplan.geometry.reach.margins import IN_MM, Gauge, gauges
from armorplan.geometry.reach.model import Margin, Row, Shell, Standing, Way
from armorplan.geometry.reach.no_mouth import Sealed, has_no_mouth, sealed_from
from armorplan.geometry.reach.row_words import places
from armorplan.geometry.reach.short_of import ranged
from armorplan.geometry.reach.standings import Told
from armorplan.geometry.reach.strays import Strays, strays_of
from armorplan.geometry.reach.stuck import stuck_in
from armorplan.geometry.reach.words import shut, standing_words
from armorplan.geometry.told import begun, listed, quoted
from armorplan.geometry.widths import STIFF
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Seam
from armorplan.pattern.parts import Point
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

_EDGES = 3
_LEAST = 2


def no_opening(pattern: Pattern, reach: Reach, shell: Shell) -> Iterator[Finding]:
    """Yield that no edge of a shell stays free once its rows shut it round, and from where on."""
    if not has_no_mouth(shell):
        return
    names = listed([pattern.part(part).name for part in shell.parts])
    have = "have" if len(shell.parts) > 1 else "has"
    rows = shut(row.name for row in shell.rows)
    told = [f"Once {rows}, {names} {have} no edge left that is free: no tool gets in anywhere."]
    sealed = sealed_from(reach, shell)
    if sealed is not None:
        told.append(_sealed_words(sealed))
    if reach.net.shells[shell.id].hollow and not shell.hollow:
        told.append(
            "So no order would set all of it, and therefore none is forbidden by reach: what is told "
            "here as at the end of reach may be out of reach."
        )
    last = "the last row" if sealed is None else _stretch(sealed.joints)
    yield Finding(
        code="reach-no-opening",
        severity=Severity.WARNING,
        text=" ".join(told),
        remedy=f"Set first what sits inside. Close {last} with screw posts, lace or blind fasteners "
        "from outside, or leave a gap in the row or one edge without a row; if an edge is open, look "
        "whether a seam lists joints of another row.",
        about=(*shell.parts, *(row.id for row in shell.rows)),
    )


def _sealed_words(sealed: Sealed) -> str:
    gap = f"the widest gap left is {sealed.gap_mm:.0f} mm" if sealed.gap_mm else "no gap is left"
    return (
        f"With {sealed.row.name} set last, '{sealed.joints[0]}' is the first that no tool gets in "
        f"behind: {gap}. From there on the anvil has to stand outside, which goes only where both "
        "heads lie outside, one edge flat on the other."
    )


def _stretch(joints: Sequence[str]) -> str:
    return f"'{joints[0]}'" if len(joints) == 1 else f"'{joints[0]}' to '{joints[-1]}'"


def seam_faults(pattern: Pattern, seam: Seam) -> Iterator[Finding]:
    """Yield a seam that holds three edges together, and one whose row crosses itself."""
    plates = [_plates(pattern, joint) for joint in seam.joints]
    thick = [j for j, held in zip(seam.joints, plates, strict=True) if len(held) >= _EDGES]
    if len(thick) >= _LEAST:
        names = [pattern.part(part).name for part in sorted(set().union(*plates))]
        yield Finding(
            code="seam-three-edges",
            severity=Severity.WARNING,
            text=f"{len(thick)} joints of '{seam.name}' hold three plates: {listed(names)}. Where "
            "three edges meet in one row there is no inside and outside, and how far tools get in is "
            "reckoned as if all were one.",
            remedy='Say kind = "trim" of what only lies over the row, or make two seams of it.',
            about=(seam.id, *thick),
        )
    yield from (_strayed(pattern, each) for each in strays_of(pattern, (seam,)))
    for part in sorted(set().union(*plates)):
        yield from _crossing(pattern, seam, part)


def _strayed(pattern: Pattern, found: Strays) -> Finding:
    """Return that some joints of a seam join an edge that the rest of it does not."""
    seam, to, joints = found.seam, found.to, found.joints
    rest = [joint for joint in seam.joints if joint not in joints]
    mate, own = pattern.part(found.mate).name, pattern.part(found.own).name
    names, do = listed(quoted(joints)), "Does" if len(joints) == 1 else "Do"
    edges = f"{places(seam.joints, joints)} {mate}, {places(seam.joints, rest)} {own}"
    them, they_do = ("it", "it does") if len(joints) == 1 else ("them", "they do")
    return Finding(
        code="seam-three-edges",
        severity=Severity.WARNING,
        text=f"{begun(seam.name)} joins three edges: {edges}. {do} {names} belong to {to.name}? How "
        f"far tools get in is reckoned as if {they_do}.",
        remedy=f"Take {them} out of the joints of [seams.{seam.id}], and list {them} in "
        f"[seams.{to.id}] where {'it lies' if len(joints) == 1 else 'they lie'} along the row.",
        about=(seam.id, to.id, *joints),
    )


def _plates(pattern: Pattern, joint: str) -> frozenset[str]:
    return frozenset(p for p in pattern.stack_parts(joint) if pattern.part(p).kind in STIFF)


def _crossing(pattern: Pattern, seam: Seam, part: str) -> Iterator[Finding]:
    """Yield the first two stretches of a row that cross on a part, in the order as listed."""
    along: list[tuple[str, Point]] = []
    for joint in seam.joints:
        found = [pattern.hole(hole) for hole in pattern.joint(joint).stack]
        centres = [hole.centre for hole in found if hole.part == part]
        if len(centres) == 1:  # of a part closed on itself it is not known which of the two follow
            along.append((joint, centres[0]))
    stretches = list(pairwise(along))
    for (a, b), (c, d) in combinations(stretches, 2):
        if b[0] != c[0] and _cross((a[1], b[1]), (c[1], d[1])):
            yield Finding(
                code="seam-crosses-itself",
                severity=Severity.WARNING,
                text=f"On {pattern.part(part).name}, '{seam.name}' crosses itself: from '{a[0]}' to "
                f"'{b[0]}' and from '{c[0]}' to '{d[0]}'.",
                remedy="List its joints as they lie along the row, or make two seams of it.",
                about=(seam.id, part, a[0], b[0], c[0], d[0]),
            )
            return


def _cross(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    return (
        _side(*one, other[0]) * _side(*one, other[1]) < 0
        and _side(*other, one[0]) * _side(*other, one[1]) < 0
    )


def _side(start: Point, end: Point, at: Point) -> float:
    return (end[0] - start[0]) * (at[1] - start[1]) - (end[1] - start[1]) * (at[0] - start[0])


def nothing_gets_there(
    shelf: Shelf, reach: Reach, told: Sequence[Told], where: str
) -> Iterator[Finding]:
    """Yield joints that no tool gets to, whatever is set before them, all of one row or plate."""
    out = [each for each in told if each.first.standing is Standing.CANNOT]
    if out:
        worst = max(out, key=lambda each: each.rank)
        names = listed(ranged([each.joint for each in out], reach.rows))
        joints = tuple(each.joint for each in out)
        hardest = f". Hardest to get at is '{worst.joint}'" if len(joints) > 1 else ""
        yield _out_of_reach(shelf, joints, worst.first, f"{names} on {where}{hardest}")


def no_run(shelf: Shelf, reach: Reach, row: Row, worst: Told) -> Iterator[Finding]:
    """Yield a row that no order of its own sets, though each of its joints could be the first.

    Of a shell without a mouth it is told by the shell.
    """
    shell = reach.drawn.shells[reach.drawn.access[worst.joint].shell]
    possible = row.id in reach.runs or has_no_mouth(shell)
    if not possible and worst.first.standing is not Standing.CANNOT:
        bar = worst.worst
        margin = worst.last if bar is None else bar.after
        yield _out_of_reach(shelf, row.joints, margin, f"the last joint of {row.name}")


def no_order(shelf: Shelf, reach: Reach, shell: Shell) -> Iterator[Finding]:
    """Yield joints of a shell that bar each other, beyond what is told of a joint or of a row."""
    gauge = gauges(reach.drawn, reach.bench)[shell.id]
    rows = {joint: row.id for row in shell.rows for joint in row.joints}
    joints = {*rows, *shell.seats}
    mine = (j for j in joints if j in gauge.access and gauge.access[j].shell == shell.id)
    found = stuck_in(gauge, reach.bench, mine)
    if found is None or any(_is_told(reach, gauge, j, rows.get(j, "")) for j in found.joints):
        return
    names = listed(quoted(found.joints))
    yield Finding(
        code="reach-nothing-gets-there",
        severity=Severity.WARNING,
        text=f"No order sets all of {names}: whichever of them is left to the last, "
        f"{standing_words(shelf, found.easiest)}.",
        remedy=_remedy(found.needed_mm, found.easiest.way),
        about=found.joints,
    )


def _is_told(reach: Reach, gauge: Gauge, joint: str, row: str) -> bool:
    """Tell whether a joint is out of reach by itself, or no order of its own sets its row."""
    alone = gauge.margin(joint, frozenset()).standing is Standing.CANNOT
    return alone or bool(row and row not in reach.runs)


def _remedy(needed_mm: float | None, way: Way | None) -> str:
    if needed_mm is None or way is None:
        longer = "a tool that goes in through a narrower opening"
    elif needed_mm > IN_MM:
        longer = f"a horn of at least {ceil(needed_mm)} mm"
    else:
        longer = f"a horn that gets in {ceil(way.along_mm)} mm"
    return (
        f"Use {longer} and say its reach_mm in tools.toml, or a screw post in place of the rivet, or "
        "place the rivets nearer to a mouth."
    )


def _out_of_reach(shelf: Shelf, joints: tuple[str, ...], margin: Margin, what: str) -> Finding:
    return Finding(
        code="reach-nothing-gets-there",
        severity=Severity.WARNING,
        text=f"In no order a tool of the shelf gets to {what}: {standing_words(shelf, margin)}.",
        remedy=_remedy(None if margin.way is None else margin.way.least_mm, margin.way),
        about=joints,
    )


def tool_faults(pattern: Pattern, shelf: Shelf, reach: Reach) -> Iterator[Finding]:
    """Yield tools without any reach, and fasteners for which the shelf has no tool that gets in."""
    used = {pattern.joint(joint).kind.value for joint in reach.net.access}
    for tool in shelf.tools:
        if tool.reach_mm is not None and tool.reach_mm <= 0 and used.intersection(tool.serves):
            yield Finding(
                code="reach-zero",
                severity=Severity.WARNING,
                text=f"'{tool.name}' has a reach of {tool.reach_mm:g} mm: it gets in nowhere.",
                remedy="Measure how far it gets in from its stand to where it works, and say so as "
                "reach_mm in tools.toml; of what works from outside alone leave reach_mm out and say "
                "outside = true.",
                about=(tool.id,),
            )
    yield from _unknown(pattern, shelf, reach)
    lacking: dict[tuple[str, str], list[str]] = {}
    for joint in sorted(reach.net.access):
        if shelf.tools and not reach.bench.tools.get(joint) and joint not in reach.bench.outside:
            each = pattern.joint(joint)
            lacking.setdefault((each.kind.value, each.fastener), []).append(joint)
    for (kind, fastener), joints in lacking.items():
        entry = shelf.fastener(fastener)
        name = kind if entry is None else entry.name
        yield Finding(
            code="reach-no-tool",
            severity=Severity.WARNING,
            text=f"No tool of the shelf whose reach is known closes {name} ({listed(quoted(joints))})"
            ": whether it can be set inside a closed shape is not known.",
            remedy=f"Say reach_mm and opening_mm of a tool that serves '{kind}' in tools.toml"
            + (
                "." if entry is None or not entry.foot else f", and '{entry.foot}' among its feet."
            ),
            about=tuple(joints),
        )


def _unknown(pattern: Pattern, shelf: Shelf, reach: Reach) -> Iterator[Finding]:
    """Yield tools of which nobody said how far they get in, where it keeps from saying *cannot*."""
    held: dict[str, list[str]] = {}
    for joint in sorted(reach.net.access):
        if reach.bench.tools.get(joint):
            for tool in of_unknown_reach(pattern.joint(joint), shelf):
                held.setdefault(tool.id, []).append(joint)
    for tool in shelf.tools:
        if joints := held.get(tool.id):
            yield Finding(
                code="reach-unknown",
                severity=Severity.NOTE,
                text=f"How far '{tool.name}' gets in is not known: nothing that it closes is said to "
                "be out of reach.",
                remedy="Measure it, and say so as reach_mm in tools.toml; say outside = true where it "
                "works from outside alone, takes_out = true where it only takes out what is set.",
                about=(tool.id, *joints),
            )
