"""Frozen rows of the take-off: sections of cells with words, for the window and the command line."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedsRow:
    """One line of a section.

    Attributes:
        cells: one text for each heading of its section.
        remarks: sentences that stand below it.
        under: it belongs to the line above that is not ``under``.
    """

    cells: tuple[str, ...]
    remarks: tuple[str, ...] = ()
    under: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedsSection:
    """A headed table, with notes that hold for all of it."""

    id: str
    title: str
    heads: tuple[str, ...]
    rows: tuple[NeedsRow, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedsPage:
    """All sections, for one of the shop's trays.

    ``trays`` are (id, name) of all trays; ``tray`` is the id of the one reckoned with.
    """

    title: str
    tray: str
    trays: tuple[tuple[str, str], ...]
    sections: tuple[NeedsSection, ...]
