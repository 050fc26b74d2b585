"""Keepsakes without a workshop file: rows in memory, photos in a folder of their own."""

from dataclasses import dataclass, field, replace
from pathlib import Path

from armorplan.ledger.keepsakes import Keepsake
from armorplan.store.kept_files import KeptFiles


@dataclass
class FakeKeepsakeShelf:
    """Fulfils ``KeepsakeShelf``; give it a folder where photos are kept in a test."""

    folder: Path = Path("nowhere")
    kept: list[Keepsake] = field(default_factory=list)

    @property
    def files(self) -> KeptFiles:
        return KeptFiles(self.folder)

    def add(self, keepsake: Keepsake) -> Keepsake:
        self.kept.append(replace(keepsake, seq=len(self.kept) + 1))
        return self.kept[-1]

    def of(self, build: str) -> tuple[Keepsake, ...]:
        return tuple(one for one in self.kept if one.build == build)

    def latest(self, build: str) -> object:
        return len(self.of(build))

    def withdraw(self, keepsake: Keepsake, *, who: str = "") -> None:  # noqa: ARG002 - nobody asks
        self.kept.remove(keepsake)
