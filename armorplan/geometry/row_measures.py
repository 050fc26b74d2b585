"""Rows that meet: each seam, and rivets of no seam that hold the same parts, read row against row.

Only spacing is judged. Rows of unlike curvature are what draws leather into shape: what they miss
by when laid flat is told as a number and is never a fault, and neither residual tells the hand.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from armorplan.geometry.bends import slides_by_layers
from armorplan.geometry.girth import Girth, own_girth, ring_girth, said
from armorplan.geometry.girth import figures as girth_figures
from armorplan.geometry.hand import hand_finding, pivot_measure, upside_down
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.row_beside import beside
from armorplan.geometry.row_bundles import Bundle, bundles
from armorplan.geometry.row_drawn import centres, figures, laid, marks, picture
from armorplan.geometry.row_faults import Out, Reading, outs, readings
from armorplan.geometry.row_findings import fault_findings, severity
from armorplan.geometry.row_groups import group_measures
from armorplan.geometry.row_loops import loop_measure
from armorplan.geometry.row_order import order_findings
from armorplan.geometry.row_pairs import pair_measures
from armorplan.geometry.row_rings import rings
from armorplan.geometry.row_shift import Wrong, reads_alike
from armorplan.geometry.row_tracks import BundlesRead
from armorplan.geometry.told import listed
from armorplan.kernel.findings import Finding
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants
from armorplan.workshop.shelf import Shelf

_LEAST_HOLES = 3
_SAID = 4
"""So many findings are said in the text of a row; all of them are told as findings."""
_SHAPED_MM = 1.0
"""Rows that miss by more than this when laid flat draw the leather visibly into shape."""


def row_measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield what each seam and each group of loose rivets tells, sound or not.

    Rivets through three parts stand in several groups: what is found of them is told once.
    """
    told: set[tuple[str, str]] = set()
    for measure in _measures(pattern, shelf):
        new = tuple(f for f in measure.findings if (f.code, f.text) not in told)
        told.update((f.code, f.text) for f in new)
        if new or not measure.findings:
            yield replace(measure, findings=new)


def _measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    slides, constants = slides_by_layers(pattern), shelf.constants
    read = [(each, readings(pattern, each, slides, constants)) for each in bundles(pattern)]
    turned = upside_down(pattern, read)
    for bundle, readings_ in read:
        found = outs(readings_)
        aside = tuple(beside(pattern, bundle, readings_, constants))
        told = (
            *fault_findings(pattern, bundle, found, constants),
            *(each.finding for each in aside),
            *(hand_finding(pattern, t, turned) for t in turned if t.bundle is bundle),
            *order_findings(pattern, bundle),
        )
        if readings_ or told:
            measure = _measure(pattern, bundle, (readings_, found, told), constants)
            yield replace(measure, marks=(*measure.marks, *(each.mark for each in aside)))
    pairs = tuple(pair_measures(pattern, read, constants))
    yield from pairs
    out = (j for _, found in read for r in found if r.faults for j in r.run.joints)
    told_of = {*out, *(each for pair in pairs for f in pair.findings for each in f.about)}
    yield from group_measures(pattern, frozenset(told_of), constants)
    for each in turned:
        if each.bundle is None:
            yield pivot_measure(pattern, each, hand_finding(pattern, each, turned))
    yield from _ring_measures(pattern, read, constants)


def _ring_measures(pattern: Pattern, read: BundlesRead, constants: Constants) -> Iterator[Measure]:
    """Yield the girths of rings, and how their rows come out along themselves.

    Where holes of a row are out already, how it lies as a whole would be told from a wrong middle.
    """
    sewn = [(each.id, r.run) for each, found in read if each.sewn for r in found]
    faulty = {each.id for each, found in read for r in found if r.faults}
    for way in rings(pattern, sewn):
        if (girth := ring_girth(pattern, way)) is not None:
            yield _ring(pattern, girth)
        if faulty & {edge.seam for _, edge in way}:
            continue
        if (loop := loop_measure(pattern, way, constants)) is not None:
            yield loop


_Read = tuple[tuple[Reading, ...], tuple[Out, ...], tuple[Finding, ...]]


def _measure(pattern: Pattern, bundle: Bundle, read: _Read, constants: Constants) -> Measure:
    readings_, found, told = read
    drawn = _worst(readings_)
    parts = dict.fromkeys(row.part for row in bundle.rows)
    names = [pattern.part(part).name for part in parts]
    return Measure(
        id=f"rows:{bundle.id}" if bundle.sewn else f"rows:loose:{bundle.id}",
        topic=Topic.ROWS,
        title=f"{bundle.name}: {' on '.join(names)}" if bundle.sewn else bundle.name,
        verdict=_verdict(found, told, readings_),
        text=_text(pattern, bundle, read, constants),
        figures=(
            *(() if drawn is None else figures(pattern, drawn)),
            *(
                f
                for girth in _own(pattern, bundle, readings_)
                for f in girth_figures(pattern, girth)
            ),
        ),
        findings=told,
        marks=tuple(
            mark for out in found for mark in marks(out, severity(bundle, out, constants))
        ),
        about=((bundle.id,) * bundle.sewn) + bundle.joints + tuple(parts),
        picture=None if drawn is None else picture(pattern, drawn),
    )


def _ring(pattern: Pattern, girth: Girth) -> Measure:
    names = [pattern.part(part).name for part in girth.parts]
    first, last = (sum(each) for each in zip(*girth.ways, strict=True))
    return Measure(
        id=f"rows:ring:{'+'.join(girth.parts)}",
        topic=Topic.ROWS,
        title=f"ring of {listed(names)}",
        verdict=f"{first:.0f} and {last:.0f} mm round",
        text=said(pattern, girth),
        figures=tuple(girth_figures(pattern, girth)),
        about=(*girth.parts, *dict.fromkeys(girth.seams)),
    )


def _worst(read: Sequence[Reading]) -> Reading | None:
    """Return the two rows to draw: those that miss most, else the longest."""
    return max(
        read,
        key=lambda each: (
            max((abs(fault.off_mm) for fault in each.faults), default=0.0),
            len(each.run.joints),
        ),
        default=None,
    )


def _own(pattern: Pattern, bundle: Bundle, read: Sequence[Reading]) -> list[Girth]:
    found = (own_girth(pattern, each.run, bundle.id) for each in read if bundle.sewn)
    return [girth for girth in found if girth is not None]


def _verdict(found: Sequence[Out], told: Sequence[Finding], read: Sequence[Reading]) -> str:
    if found:
        worst = max(found, key=lambda out: abs(out.fault.off_mm))
        off_mm, at = abs(worst.fault.off_mm), worst.reading.run.numbers[worst.fault.at] + 1
        return {
            Wrong.HOLE: f"hole {at} is {off_mm:.1f} mm out",
            Wrong.BEYOND: f"{len(worst.holes)} holes are {off_mm:.1f} mm out",
            Wrong.LONGER: f"one row is {off_mm:.1f} mm longer per spacing",
            Wrong.OTHER_WAY: "one row runs the other way",
            Wrong.SPACING: f"holes {at} and {at + 1} miss by {off_mm:.1f} mm",
        }[worst.fault.wrong]
    if any(finding.code == "sides-disagree" for finding in told):
        return "look at which way round it goes"
    if any(finding.code == "hole-off-row" for finding in told):
        return "a hole lies beside its row"
    if told:
        return "look at its joints"
    if any(sum(each.wider.by_mm) for each in read):
        return "meet once bent: bend first"
    return "meet"


def _text(pattern: Pattern, bundle: Bundle, read: _Read, constants: Constants) -> str:
    readings_, found, told = read
    words = [finding.text for finding in told[:_SAID]]
    if len(told) > _SAID:
        words.append(f"{len(told) - _SAID} more are told below.")
    if not found and readings_:
        words += _sound(pattern, readings_, constants)
    drawn = _worst(readings_)
    if drawn is not None and len(drawn.run.joints) >= _LEAST_HOLES:
        words += _hand(drawn, constants)
        words += _flat(drawn)
    words += [said(pattern, girth) for girth in _own(pattern, bundle, readings_)]
    return " ".join(words)


def _sound(pattern: Pattern, read: Sequence[Reading], constants: Constants) -> Iterator[str]:
    most_mm = max(abs(each) for reading in read for each in reading.differ_mm)
    count = max(len(reading.run.joints) for reading in read)
    yield (
        f"{count} holes meet: no spacing differs by more than {most_mm:.1f} mm; "
        f"{constants.misfit.value:g} mm is made up by punch and leather."
    )
    for reading in read:
        wider_mm = sum(reading.wider.by_mm)
        outer = pattern.part(reading.run.first.part).name
        if wider_mm and reading.wider.known:
            yield (
                f"The row on {outer} is {wider_mm:.1f} mm longer, about as the bend asks for "
                f"({sum(reading.wider.most_mm):.1f} mm): it is made for the bent state. Bend "
                "first; the holes meet once bent."
            )
        elif wider_mm:
            yield (
                f"The row on {outer} is {wider_mm:.1f} mm longer all along. The bend's radius is "
                "not written, so that this is not judged; write radius_mm of its form."
            )


def _hand(reading: Reading, constants: Constants) -> Iterator[str]:
    first, second = reading.run.spans
    bad_mm = constants.bad_misfit.value
    run = reading.run
    if run.first.part == run.second.part:
        return
    if reads_alike(first, bad_mm) and reads_alike(second, bad_mm):
        yield (
            "The spacings read alike from both ends: the holes cannot tell which way round the "
            "parts go. Look at the up arrows."
        )


def _flat(reading: Reading) -> Iterator[str]:
    run = reading.run
    flat = laid(centres(run.on_first), centres(run.on_second))
    if run.first.part != run.second.part and flat is not None and flat.worst_mm > _SHAPED_MM:
        yield (
            f"Laid flat the rows miss by up to {flat.worst_mm:.1f} mm: the row draws the leather "
            "into shape, which is no fault."
        )
