"""Reads one way to save leather that something went wrong with."""

from armorplan.files.limits import EACH, LENGTH_OR_NONE, WAIT, WORK
from armorplan.files.tables import Table
from armorplan.files.values import Bounds, flag, maybe_number, maybe_text, number, text, texts
from armorplan.files.words import maybe_word, word, words_of
from armorplan.pattern.parts import PartKind
from armorplan.steps.model import StepKind
from armorplan.workshop.salvages import COLOURS, MEANS, MISTAKES, WAYS, Salvage

_PCT = Bounds(least=0, most=100, unit="%")
_DIAMETERS = Bounds(least=0, most=20, unit="hole diameters")
_KINDS = tuple(kind.value for kind in StepKind)
_PART_KINDS = tuple(kind.value for kind in PartKind)


def read_salvage(key: str, row: Table) -> Salvage:
    """Read a salvage: what it mends, within which limits, its minutes, risk and what it leaves."""
    mends = words_of(row, "mends", MISTAKES)
    if not row.has("mends"):
        row.missing("mends", wanted='["…"]')
    return Salvage(
        id=key,
        name=text(row, "name"),
        how=maybe_text(row, "how") or "",
        means=word(row, "means", MEANS),
        mends=mends,
        source=text(row, "source"),
        minutes=number(row, "minutes", WORK, default=0.0),
        per_hole_min=number(row, "per_hole_min", EACH, default=0.0),
        per_part_min=number(row, "per_part_min", WORK, default=0.0),
        wait_min=number(row, "wait_min", WAIT, default=0.0),
        risk_pct=number(row, "risk_pct", _PCT),
        least_mm=maybe_number(row, "least_mm", LENGTH_OR_NONE),
        most_mm=maybe_number(row, "most_mm", LENGTH_OR_NONE),
        least_diameters=maybe_number(row, "least_diameters", _DIAMETERS),
        most_diameters=maybe_number(row, "most_diameters", _DIAMETERS),
        ways=words_of(row, "ways", WAYS),
        heads_cover=flag(row, "heads_cover", default=False),
        load=flag(row, "load", default=True),
        holes_open=flag(row, "holes_open", default=False),
        part_open=flag(row, "part_open", default=False),
        after=words_of(row, "after", _KINDS),
        not_after=words_of(row, "not_after", _KINDS),
        part_kinds=words_of(row, "part_kinds", _PART_KINDS),
        colour=maybe_word(row, "colour", COLOURS),
        pair_uncut=flag(row, "pair_uncut", default=False),
        hardware=texts(row, "hardware"),
        hole_hardware=texts(row, "hole_hardware"),
        leaves=maybe_text(row, "leaves") or "",
        tool=maybe_text(row, "tool") or "",
        cautions=texts(row, "cautions"),
    )
