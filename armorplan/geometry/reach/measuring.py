"""Reach: each shell with its mouths, each of its rows, what else sits on a plate, and the tools."""

from collections.abc import Iterator, Sequence

from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.reach import faults
from armorplan.geometry.reach.figures import margin_figures
from armorplan.geometry.reach.firm_asked import firm_line
from armorplan.geometry.reach.gathered import Reach, reach_of
from armorplan.geometry.reach.marks import way_marks
from armorplan.geometry.reach.model import Row, Shell, Standing
from armorplan.geometry.reach.pictures import reach_picture
from armorplan.geometry.reach.runs import may_follow
from armorplan.geometry.reach.shell_measuring import part_names, shell_measure
from armorplan.geometry.reach.short_of import short_of
from armorplan.geometry.reach.standings import Told, told_of, verdict, when
from armorplan.geometry.reach.words import standing_words
from armorplan.geometry.told import begun, listed, quoted
from armorplan.geometry.ways_in import ReachPicture
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, gravest
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf


def reach_measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield what the shapes and the shelf's tools tell of reach, sound or not.

    Plates that no row holds together shut nothing in: they stand in one line.
    """
    reach = reach_of(pattern, shelf)
    told_seams: set[str] = set()
    for shell in reach.drawn.shells.values():
        if shell.rows:
            yield shell_measure(pattern, shelf, reach, shell)
        for row in shell.rows:
            told_seams.add(row.id)
            yield _of_row(pattern, shelf, reach, (shell, row))
        yield from _seats(pattern, shelf, reach, shell)
    yield from _open_plates(pattern, reach)
    for seam in pattern.seams:
        found = () if seam.id in told_seams else tuple(faults.seam_faults(pattern, seam))
        if found:
            yield Measure(
                id=f"reach:seam:{seam.id}",
                topic=Topic.REACH,
                title=seam.name,
                verdict="cannot be read as one row",
                text=" ".join(each.text for each in found),
                findings=found,
                about=(seam.id, *seam.joints),
            )
    yield from short_of(pattern, shelf, reach)
    yield from _tools(pattern, shelf, reach)
    yield from firm_line(pattern, shelf)


def _of_row(pattern: Pattern, shelf: Shelf, reach: Reach, laid: tuple[Shell, Row]) -> Measure:
    shell, row = laid
    told = [told_of(reach, shell, joint) for joint in row.joints]
    worst = max(told, key=lambda each: each.rank)
    seams = [seam for seam in pattern.seams if seam.id == row.id]
    found = (
        *(each for seam in seams for each in faults.seam_faults(pattern, seam)),
        *faults.nothing_gets_there(shelf, reach, told, row.name),
        *faults.no_run(shelf, reach, row, worst),
    )
    run = reach.runs.get(row.id, ())
    words = [*_run_words(row, run), *_begun_at(reach, row)] if run else []
    return _measure(
        pattern,
        shelf,
        (reach, shell, worst),
        (f"reach:row:{row.id}", f"{row.name}: {part_names(pattern, row.parts)}"),
        words,
        found,
        (*(seam.id for seam in seams), *row.joints, *row.parts),
    )


def _run_words(row: Row, run: Sequence[str]) -> Iterator[str]:
    if len(run) == 1:
        yield f"'{run[0]}' is all of it."
    elif tuple(run) == row.joints:
        yield f"It is best set as it is listed, from '{run[0]}' to '{run[-1]}'."
    elif tuple(run) == row.joints[::-1]:
        yield f"It is best set from '{run[0]}' to '{run[-1]}'."
    else:
        yield (
            "From neither end all of it can be set: it goes in the order "
            f"{listed(quoted(run), named=len(run))}."
        )


def _begun_at(reach: Reach, row: Row) -> Iterator[str]:
    """Yield where a row has to be begun, if not anywhere: a joint begun with may bar another."""
    barred = {bar.joint for bar in reach.own_bars if bar.after.standing is Standing.CANNOT}
    if barred.isdisjoint(row.joints):
        return
    first = may_follow(reach.net, row, reach.bench, frozenset())
    if len(first) < len(row.joints):
        yield f"It has to be begun at {listed(quoted(first), named=len(first), last=' or ')}."


def _seats(pattern: Pattern, shelf: Shelf, reach: Reach, shell: Shell) -> Iterator[Measure]:
    """Yield what else sits on each plate of a shell that rows hold together."""
    in_rows = {joint for row in shell.rows for joint in row.joints}
    if not shell.rows:
        return
    for part in shell.parts:
        joints = [
            joint
            for joint in shell.seats
            if joint not in in_rows
            and reach.net.access[joint].shell == shell.id
            and reach.net.access[joint].parts[0] == part
        ]
        if not joints:
            continue
        told = [told_of(reach, shell, joint) for joint in joints]
        worst, name = max(told, key=lambda each: each.rank), pattern.part(part).name
        on = [p for joint in joints for p in pattern.stack_parts(joint) if p not in shell.parts]
        what = part_names(pattern, tuple(dict.fromkeys(on))) or "joints"
        yield _measure(
            pattern,
            shelf,
            (reach, shell, worst),
            (f"reach:seats:{part}", f"{what} on {name}"),
            [],
            tuple(faults.nothing_gets_there(shelf, reach, told, name)),
            (*joints, part, *dict.fromkeys(on)),
        )


def _measure(  # noqa: PLR0913, PLR0917 - a measure is put together here for rows and for seats
    pattern: Pattern,
    shelf: Shelf,
    laid: tuple[Reach, Shell, Told],
    named: tuple[str, str],
    words: list[str],
    found: tuple[Finding, ...],
    about: tuple[str, ...],
) -> Measure:
    reach, shell, worst = laid
    margin = worst.last if worst.worst is None else worst.worst.after
    shown = margin if margin.way is not None else worst.last
    severity = gravest(each.severity for each in found)
    out = worst.first.standing is Standing.CANNOT or any(
        each.code == "reach-nothing-gets-there" for each in found
    )
    return Measure(
        id=named[0],
        topic=Topic.REACH,
        title=named[1],
        verdict="no tool gets there" if out else verdict(reach, worst),
        text=" ".join(
            (
                *_text(shelf, reach, worst),
                *_in_the_way(reach, shell, worst),
                *words,
                *(each.text for each in found),
            )
        ),
        figures=(
            *margin_figures(shell, shown, shelf, reach.bench.squash(worst.joint)),
            *_effort(shelf, worst),
        ),
        findings=found,
        marks=tuple(way_marks(pattern, shell, worst.joint, shown.way, severity)),
        about=about,
        picture=_picture(reach, worst),
    )


def _picture(reach: Reach, worst: Told) -> ReachPicture | None:
    """Return the way in as it stands, and once what makes it hardest is done."""
    bar = worst.worst
    states = [("with nothing else set", worst.first)]
    if bar is None:
        states.append(("with all of it set", worst.last))
    else:
        states.append((f"once {when(reach, bar)}", bar.after))
    return reach_picture(reach, worst.joint, states)


def _text(shelf: Shelf, reach: Reach, worst: Told) -> Iterator[str]:
    """Yield how the joint that is hardest to get at stands, at first and once it is barred."""
    yield f"Hardest to get at is '{worst.joint}'."
    if worst.first.standing is Standing.CANNOT:
        return
    outside = worst.joint in reach.bench.outside
    yield f"With nothing else set, {standing_words(shelf, worst.first, outside=outside)}."
    bar = worst.worst
    if bar is None:
        yield "Nothing that is set before it makes it harder."
        return
    if worst.joint in reach.cut_short:
        yield "More rows shut it in than can be told here, each set of them in its own way."
    once = when(reach, bar)
    if bar.after.standing is Standing.CANNOT:
        yield f"Once {once}, no tool gets there: {standing_words(shelf, bar.after)}."
        return
    yield (
        f"Once {once}, {standing_words(shelf, bar.after, outside=outside)}: it takes "
        f"{bar.after.effort:.1f} times the minutes of the flat bench, against {bar.before.effort:.1f} before."
    )


def _in_the_way(reach: Reach, shell: Shell, worst: Told) -> Iterator[str]:
    """Yield that the wall may hinder a tool that is long enough: the shell is not known to be convex."""
    margin = worst.last if worst.worst is None else worst.worst.after
    if shell.hollow and margin.way and margin.way.along_mm > reach.bench.hand_depth_mm:
        yield "The shell curves inwards, or may: look whether its wall stands in a straight tool's way."


def _effort(shelf: Shelf, worst: Told) -> Iterator[Figure]:
    margin = worst.last if worst.worst is None else worst.worst.after
    if margin.standing in (Standing.FLAT, Standing.CANNOT):
        return
    constants = shelf.constants
    shaped, inside, end = constants.curved_effort, constants.inside_effort, constants.end_effort
    depth = constants.hand_depth
    yield Figure(
        name="minutes, times those on the flat bench",
        value=margin.effort,
        unit="",
        formula=f"{shaped.value:g} on a shaped part that stands open, up to {depth.value:g} mm in; "
        f"then, or from the mouth on where rows shut it all round, rising to {inside.value:g} at the "
        f"tool's full reach; {end.value:g} at the end of reach",
        source=shaped.source,
    )


def _open_plates(pattern: Pattern, reach: Reach) -> Iterator[Measure]:
    """Yield one line for all plates that no row of their own shuts."""
    parts = [part for shell in reach.net.shells.values() if not shell.rows for part in shell.parts]
    if parts:
        yield Measure(
            id="reach:open",
            topic=Topic.REACH,
            title="plates that nothing shuts",
            verdict="reached from any edge",
            text=f"No row of rivets makes a closed shape of {part_names(pattern, parts)}: what is set on "
            f"{'them' if len(parts) > 1 else 'it'} is reached from the edge at any time.",
            about=tuple(parts),
        )


def _tools(pattern: Pattern, shelf: Shelf, reach: Reach) -> Iterator[Measure]:
    """Yield the tools that get in, as far as joints of shells ask for any."""
    tools = {
        tool.id: tool for joint in reach.net.access for tool in reach.bench.tools.get(joint, ())
    }
    found = tuple(faults.tool_faults(pattern, shelf, reach))
    if not tools and not found:
        return
    by_reach = sorted(tools.values(), key=lambda tool: (-(tool.reach_mm or 0.0), tool.id))
    furthest = max((tool.reach_mm or 0.0 for tool in by_reach), default=0.0)
    count = f"{len(by_reach)} tool{'s' * (len(by_reach) != 1)}"
    words = (
        f"What gets in behind the leather: {listed(quoted(tool.name for tool in by_reach))}."
        if by_reach
        else "No tool of the shelf is said to get in behind the leather."
    )
    yield Measure(
        id="reach:tools",
        topic=Topic.REACH,
        title="tools that get in",
        verdict=f"{count}, up to {furthest:.0f} mm" if by_reach else "none is known",
        text=" ".join((begun(words), *(each.text for each in found))),
        figures=tuple(
            Figure(
                name=f"reach of {tool.name}",
                value=tool.reach_mm or 0.0,
                unit="mm",
                formula=f"as the shelf says; it goes in through {tool.opening_mm:.0f} mm and more",
                source=tool.source,
            )
            for tool in by_reach
        ),
        findings=found,
        about=tuple(sorted(reach.net.access)),
    )
