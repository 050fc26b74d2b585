"""Rows that meet: each seam, and rivets of no seam that hold the same parts, read row against row.

Only spacing is judged. Rows of unlike curvature are what draws leather into shape: what they miss
by when laid flat is told as a number and is never a fault, and neither residual tells the hand.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from armorplan.geometry.bends.slides import slides_by_layers
from armorplan.geometry.bends.ways import Way, way_of
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.rows.bends import Wider
from armorplan.geometry.rows.beside import beside
from armorplan.geometry.rows.bundles import Bundle, bundles
from armorplan.geometry.rows.drawn import curved_mm, figures, marks, picture
from armorplan.geometry.rows.faults import BundlesRead, Reading, outs, readings
from armorplan.geometry.rows.findings import fault_findings
from armorplan.geometry.rows.girth import Girth, own_girth, ring_girth, said
from armorplan.geometry.rows.girth import figures as girth_figures
from armorplan.geometry.rows.groups import group_measures
from armorplan.geometry.rows.hand import hand_findings, pivot_measure, upside_down
from armorplan.geometry.rows.loops import loop_measure
from armorplan.geometry.rows.order import order_findings
from armorplan.geometry.rows.pairs import pair_measures
from armorplan.geometry.rows.rings import rings
from armorplan.geometry.rows.shift import reads_alike
from armorplan.geometry.rows.turned import turned_over
from armorplan.geometry.rows.uneven import severity
from armorplan.geometry.rows.verdicts import Read, is_crossed, verdict
from armorplan.geometry.told import listed
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants
from armorplan.workshop.shelf import Shelf

_LEAST_HOLES = 3
_SAID = 4
"""So many findings are said in the text of a row; all of them are told as findings."""
_TOLD_MM = 0.05
"""What a tenth of a millimetre does not show is told as alike."""
_WORN = "Holes marked on the wearer are punched through both parts at once: their spacing is not judged."


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
    hands = hand_findings(pattern, upside_down(pattern, read))
    parted = {pair for pair, slide in slides.items() if way_of(slide, constants).parts_holes}
    hung = {each for _, finding in hands for each in finding.about}
    for bundle, readings_ in read:
        found = outs(readings_)
        aside = tuple(beside(pattern, bundle, readings_, constants))
        told = (
            *fault_findings(pattern, bundle, found, constants),
            *(each.finding for each in aside),
            *(finding for turned, finding in hands if turned.bundle is bundle),
            *turned_over(pattern, (bundle, readings_), hung, constants),
            *order_findings(pattern, bundle),
        )
        if readings_ or told:
            parts = any((r.run.first.part, r.run.second.part) in parted for r in readings_)
            yield _measure(pattern, bundle, Read(readings_, found, aside, told, parts), constants)
        elif bundle.sewn and (worn := _placed(pattern, bundle)):
            yield _on_wearer(pattern, bundle, worn)
    pairs = tuple(pair_measures(pattern, read, constants))
    yield from pairs
    out = (j for _, found in read for r in found if r.faults for j in r.run.joints)
    told_of = {*out, *(each for pair in pairs for f in pair.findings for each in f.about)}
    yield from group_measures(pattern, frozenset(told_of), constants)
    for turned, finding in hands:
        if turned.bundle is None:
            yield pivot_measure(pattern, turned, finding)
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


def _measure(pattern: Pattern, bundle: Bundle, read: Read, constants: Constants) -> Measure:
    drawn = _worst(read)
    aside_mm = {each.hole: each.aside_mm for each in read.aside}
    own = [
        f for each in _own(pattern, bundle, read.readings) for f in girth_figures(pattern, each)
    ]
    # Where its stacks are wrong no hole is to be moved.
    out_of_place = () if is_crossed(read) else read.found
    grave = [(out, severity(bundle, out, constants)) for out in out_of_place]
    return Measure(
        id=f"rows:{bundle.id}" if bundle.sewn else f"rows:loose:{bundle.id}",
        topic=Topic.ROWS,
        title=_title(pattern, bundle),
        verdict=verdict(read),
        text=_text(pattern, bundle, read, constants),
        figures=(*(() if drawn is None else figures(pattern, drawn)), *own),
        findings=read.told,
        marks=(
            *(mark for out, how in grave for mark in marks(out, how)),
            *(each.mark for each in read.aside),
        ),
        about=((bundle.id,) * bundle.sewn)
        + bundle.joints
        + tuple(dict.fromkeys(row.part for row in bundle.rows)),
        picture=None if drawn is None else picture(pattern, drawn, out_of_place, aside_mm),
    )


def _title(pattern: Pattern, bundle: Bundle) -> str:
    names = [pattern.part(part).name for part in dict.fromkeys(row.part for row in bundle.rows)]
    return f"{bundle.name}: {' on '.join(names)}" if bundle.sewn and names else bundle.name


def _placed(pattern: Pattern, bundle: Bundle) -> tuple[str, ...]:
    return tuple(each for each in bundle.joints if pattern.joint(each).placed_on_wearer)


def _on_wearer(pattern: Pattern, bundle: Bundle, worn: tuple[str, ...]) -> Measure:
    """Return the measure of a row that is punched on the wearer, and so is not judged."""
    parts = tuple(dict.fromkeys(part for each in worn for part in pattern.stack_parts(each)))
    return Measure(
        id=f"rows:{bundle.id}",
        topic=Topic.ROWS,
        title=f"{bundle.name}: {' on '.join(pattern.part(part).name for part in parts)}",
        verdict="punched on the wearer",
        text=_WORN,
        about=(bundle.id, *bundle.joints, *parts),
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


def _worst(read: Read) -> Reading | None:
    """Return the two rows to draw: those that miss most, else the longest."""
    if read.found:
        return max(read.found, key=lambda out: abs(out.fault.off_mm)).reading
    return max(
        read.readings,
        key=lambda each: (len(each.aside), len(each.run.joints)),
        default=None,
    )


def _own(pattern: Pattern, bundle: Bundle, read: Sequence[Reading]) -> list[Girth]:
    found = (own_girth(pattern, each.run, bundle.id) for each in read if bundle.sewn)
    return [girth for girth in found if girth is not None]


def _text(pattern: Pattern, bundle: Bundle, read: Read, constants: Constants) -> str:
    words = [finding.text for finding in read.told[:_SAID]]
    if len(read.told) > _SAID:
        words.append(f"{len(read.told) - _SAID} more are told below.")
    if not read.found and not read.aside and read.readings:
        words += _sound(pattern, read.readings, constants)
    drawn = _worst(read)
    if drawn is not None and len(drawn.run.joints) >= _LEAST_HOLES:
        words += _hand(drawn, constants)
        words += _flat(pattern, drawn)
    if _placed(pattern, bundle):
        words.append(_WORN)
    words += [said(pattern, girth) for girth in _own(pattern, bundle, read.readings)]
    return " ".join(words)


def _sound(pattern: Pattern, read: Sequence[Reading], constants: Constants) -> Iterator[str]:
    if not any(each.wider.is_part for each in read):
        yield _meets(read, constants)
    for reading in read:
        if reading.wider.counts:
            yield _longer(pattern.part(reading.run.first.part).name, reading.wider)


def _meets(read: Sequence[Reading], constants: Constants) -> str:
    most_mm = max(abs(each) for reading in read for each in reading.differ_mm)
    count = max(len(reading.run.joints) for reading in read)
    if most_mm < _TOLD_MM:
        return f"{count} holes meet: spacing by spacing the rows are alike."
    return (
        f"{count} holes meet: no spacing differs by more than {most_mm:.1f} mm; "
        f"{constants.misfit.value:g} mm is made up by punch and leather."
    )


def _longer(outer: str, wider: Wider) -> str:
    """Say by how much the outer row is longer, and whether that is what the bend asks for."""
    longer = f"The row on {outer} is {wider.longer_mm:.1f} mm longer"
    if wider.is_made_for:
        return (
            f"{longer}, about as the bend asks for ({wider.asked_mm:.1f} mm): it is made for the "
            f"bent state. {Way.MADE_BENT.capitalize()}: the holes meet once bent."
        )
    if not wider.known:
        return (
            f"{longer} all along. The bend's radius is not written, so that this is not judged; "
            "write radius_mm of its form."
        )
    return f"{longer}; for the bent state the bend asks for {wider.asked_mm:.1f} mm."


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


def _flat(pattern: Pattern, reading: Reading) -> Iterator[str]:
    flat_mm = curved_mm(pattern, reading)
    if flat_mm is not None:
        yield (
            f"Laid flat the rows miss by up to {flat_mm:.1f} mm: the row draws the leather into "
            "shape, which is no fault."
        )
