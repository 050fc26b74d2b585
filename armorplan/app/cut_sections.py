"""A cut list in words: a section for each leather, its beds, what a kerf does, cautions."""

from collections import Counter
from collections.abc import Iterator

from armorplan.app.cut_lists import bed_title
from armorplan.app.needs_rows import NeedsRow, NeedsSection
from armorplan.app.needs_words import area_words, counted, minutes_words
from armorplan.kernel.units import MM2_PER_DM2, MM_PER_CM, MM_PER_M, mm2_to_square_feet
from armorplan.needs.cutting.model import CutLeather, CutList, CutPart, Cutter, FilledBed, KerfHole
from armorplan.needs.figures import thickness_words
from armorplan.needs.leather import hide_words

_LAID = (
    "Blanks are the boxes round the parts, laid side by side on beds; no nesting is promised, and a "
    "hide has an outline, scars and a belly of its own."
)
_GRAIN = "Every part lies grain side up, so the right of a pair is mirrored already."
_KERF = (
    "The drawing for the cutter runs outlines half a kerf outside and holes half a kerf inside, so "
    "that parts come out as drawn: set no kerf in the machine as well."
)
_MOST_NAMED = 6


def cut_sections(found: CutList) -> tuple[NeedsSection, ...]:
    """Return a cut list in words; sections that have nothing to say are left out."""
    sections = [_leather(found, one) for one in found.leathers]
    if any(one.beds for one in found.leathers):
        sections.append(_beds(found))
    if found.asked.kerf_mm:
        sections.append(_kerf(found))
    sections.append(_cautions(found))
    return tuple(sections)


def _leather(found: CutList, one: CutLeather) -> NeedsSection:
    title = f"{one.name}, {thickness_words(one.least_mm, one.thickness_mm)}"
    total = NeedsRow(
        cells=(
            f"In all {counted(one.pieces, 'piece')}",
            area_words(one.net_dm2),
            minutes_words(one.hand_min),
            _machine_words(found, one),
        ),
        remarks=tuple(_leather_remarks(found, one)),
    )
    return NeedsSection(
        id=f"cut-{one.leather}-{one.thickness_mm:g}",
        title=title,
        heads=(title, "Area", "By hand", "Machine"),
        rows=(*map(_part, one.parts), total),
    )


def _machine_words(found: CutList, one: CutLeather) -> str:
    if found.asked.cutter is Cutter.LASER and not one.may_be_lasered:
        return "not by laser"
    return minutes_words(one.machine_min)


def _leather_remarks(found: CutList, one: CutLeather) -> Iterator[str]:
    yield f"{_length_words(one.cut_mm)} of edges, holes and slots to cut. {_buy_words(one)}"
    if found.asked.cutter is not Cutter.LASER or one.may_be_lasered:
        beds = counted(max(len(one.beds), 1), "bed")
        cutting = _about(one.machine_min - one.set_up_min)
        set_up = minutes_words(one.set_up_min)
        yield f"On a machine {cutting} of cutting and {set_up} to set up {beds}."
    if one.too_large:
        yield f"Too large for the bed: {', '.join(one.too_large)}."
    if found.asked.cutter is not Cutter.LASER and not one.may_be_lasered:
        yield "Not known to be vegetable tanned: not for a laser."


def _buy_words(one: CutLeather) -> str:
    """Say how much to buy: what blanks take as they lie, where the usual share is less."""
    usual = f"{one.yield_pct:g} % of a hide ends in parts"
    if one.beds_dm2 <= one.buy_dm2:
        return f"Buy {_bought_words(one.buy_dm2, one.buy_ft2)}, {one.hide}: {usual}."
    feet = mm2_to_square_feet(one.beds_dm2 * MM2_PER_DM2)
    return (
        f"Buy {_bought_words(one.beds_dm2, feet)}, {hide_words(feet)}: so much the blanks take as "
        f"they lie on the beds; {area_words(one.buy_dm2)} would do where {usual}."
    )


def _bought_words(dm2: float, feet: float) -> str:
    return f"{area_words(dm2)} ({feet:.2f} ft²)"


def _part(part: CutPart) -> NeedsRow:
    sides = " and ".join(side for side in part.sides if side != "single")
    times = f"{part.pieces} times" if part.pieces > len(part.sides) else ""
    told = ", ".join(filter(None, (times, sides)))
    return NeedsRow(
        cells=(
            f"{part.name} ({told})" if told else part.name,
            area_words(part.area_dm2 * part.pieces),
            _about(part.hand_min),
            _about(part.machine_min),
        ),
        remarks=(" ".join(_part_remarks(part)),),
    )


def _part_remarks(part: CutPart) -> Iterator[str]:
    """Yield how large a part is and what is cut in one of it, and which holes are not cut with it."""
    wide, high = part.size_mm
    along = " along the backbone" if part.backbone else ""
    words = [f"{wide:.0f} × {high:.0f} mm{along}", f"{_length_words(part.cut_mm)} of edges to cut"]
    words += [counted(part.holes, "hole")] if part.holes else []
    words += [counted(part.slots, "slot")] if part.slots else []
    yield f"{'Each ' * (part.pieces > 1)}{', '.join(words)}."
    if part.after_shaping:
        yield (
            f"{counted(part.after_shaping, 'hole')} in it punched once it is shaped: punched flat "
            "they would no longer meet."
        )
    if part.on_wearer:
        yield f"{counted(part.on_wearer, 'hole')} in it marked on the wearer, and punched then."


def _length_words(mm: float) -> str:
    return f"{mm / MM_PER_CM:.0f} cm" if mm < MM_PER_M else f"{mm / MM_PER_M:.1f} m"


def _about(minutes: float) -> str:
    return minutes_words(round(minutes)) if minutes >= 1 else "under 1 min"


def _beds(found: CutList) -> NeedsSection:
    bed = found.asked.bed
    size = f" of {bed.wide_mm:g} × {bed.high_mm:g} mm" if bed else ""
    title = f"Beds{size}"
    return NeedsSection(
        id="beds",
        title=title,
        heads=(title, "Blanks", "Used of it", "Filled"),
        rows=tuple(_bed(one, filled) for one in found.leathers for filled in one.beds),
        notes=(_LAID, _GRAIN),
    )


def _bed(one: CutLeather, bed: FilledBed) -> NeedsRow:
    wide, high = bed.used_mm
    names = list(dict.fromkeys(blank.name for blank in bed.blanks))
    more = f" and {len(names) - _MOST_NAMED} more" if len(names) > _MOST_NAMED else ""
    return NeedsRow(
        cells=(
            bed_title(one, bed.number),
            f"{len(bed.blanks)}",
            f"{wide:.0f} × {high:.0f} mm",
            f"{bed.filled_pct:.0f} %",
        ),
        remarks=(f"{', '.join(names[:_MOST_NAMED])}{more}.",),
    )


def _kerf(found: CutList) -> NeedsSection:
    title = f"What a kerf of {found.asked.kerf_mm:g} mm does to holes"
    counts = Counter[float]()
    for hole in _holes(found):
        counts[hole.drawn_mm] += hole.count
    sizes = {hole.drawn_mm: hole for hole in _holes(found)}
    return NeedsSection(
        id="kerf",
        title=title,
        heads=(title, "Drawn", "Cut on the line", "Line to run"),
        rows=tuple(_kerf_row(sizes[mm], counts[mm]) for mm in sorted(sizes)),
        notes=(_KERF,),
    )


def _holes(found: CutList) -> Iterator[KerfHole]:
    yield from (hole for one in found.leathers for hole in one.holes)


def _kerf_row(hole: KerfHole, count: int) -> NeedsRow:
    return NeedsRow(
        cells=(
            counted(count, "hole"),
            f"{hole.drawn_mm:.2f} mm",
            f"{hole.plain_mm:.2f} mm",
            f"{hole.path_mm:.2f} mm" if hole.path_mm else "too narrow",
        )
    )


def _cautions(found: CutList) -> NeedsSection:
    return NeedsSection(
        id="cautions",
        title="Cautions",
        heads=("Cautions",),
        rows=(NeedsRow(cells=("",), remarks=found.cautions),),
    )
