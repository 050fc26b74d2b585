"""Where the work of a shop is done beside hands: baths, racks, presses and cutting places."""

from dataclasses import dataclass

from armorplan.workshop.hours import Opening

DIP, WIPE = "dip", "wipe"


@dataclass(frozen=True, slots=True, kw_only=True)
class DipBath:
    """A vat or tray that holds one treatment in one colour at a time, or a bench to wipe on.

    Attributes:
        area_dm2: what lies in it side by side at the most.
        change_min: minutes to empty, clean and fill it for another colour.
        holds: treatment and colour it holds now, as ``family_of`` writes them; empty: it is clean.
        takes: ids of the treatments it is used for; empty: any.
        applying: ``dip`` for a bath, ``wipe`` for a bench where coats are wiped on.
        sides_mm: its longer and its shorter inner side; ``None``: only its area is known.
    """

    id: str
    name: str
    area_dm2: float
    change_min: int = 0
    holds: str = ""
    takes: tuple[str, ...] = ()
    applying: str = DIP
    sides_mm: tuple[float, float] | None = None

    def serves(self, treatment: str, applying: str) -> bool:
        """Tell whether a coat of this treatment, put on this way, is done here."""
        return applying == self.applying and (not self.takes or treatment in self.takes)


def family_of(treatment: str, colour: str) -> str:
    """Return what a bath has to hold for a coat: treatment and colour."""
    return f"{treatment}|{colour}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """Where wet parts hang on a line, or lie on a shelf, until somebody takes them down.

    Attributes:
        line_mm: length of its lines together; 0: it has none.
        shelf_dm2: area of its shelves together; 0: it has none.
    """

    id: str
    name: str
    line_mm: float = 0.0
    shelf_dm2: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A press, a cutting table: kinds of step that are done nowhere else.

    Attributes:
        kinds: kinds of step, by their names.
        count: how many can work there at once.
        hours: when it may be used, in the shop's local time; ``None``: whenever somebody works.
    """

    id: str
    name: str
    kinds: tuple[str, ...]
    count: int = 1
    hours: tuple[Opening, ...] | None = None
