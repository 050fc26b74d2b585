"""Orders: which builds a shop has in hand, when each is due, and how it is made."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """One build a shop is to make.

    Attributes:
        id: the build's.
        pattern: its pattern folder as written: from the shop file's folder, or a sample's name.
        title: what it is called; empty: as its pattern is.
        due_at: when it has to be ready (aware, UTC); ``None``: at no set time.
        ready_at: nothing of it begins sooner, ``from`` in the file.
        weight: what a minute of its lateness weighs beside those of others.
        chosen: option and choice, as ``with`` in the file decides them.
        dyed: the pattern's colour, and the one it is dyed in instead.
        dipped: ids of the pattern's treatments that are dipped, however it puts them on.
        wearer: who it is fitted on; empty: the shop's only wearer, where it has one.
        after: builds that are finished before it begins.
    """

    id: str
    pattern: str
    title: str = ""
    due_at: datetime | None = None
    ready_at: datetime | None = None
    weight: int = 1
    chosen: tuple[tuple[str, str], ...] = ()
    dyed: tuple[tuple[str, str], ...] = ()
    dipped: tuple[str, ...] = ()
    wearer: str = ""
    after: tuple[str, ...] = ()

    @property
    def is_as_written(self) -> bool:
        """Tell whether it is made as its pattern says, in its colours."""
        return not (self.chosen or self.dyed or self.dipped)
