"""Two corrections of the elbow cop as dry fits asked for them, one of them in the pattern by now."""

from dataclasses import replace
from functools import cache
from pathlib import Path
from types import SimpleNamespace

from armorplan.app.corrections_desk import Corrections
from armorplan.app.corrections_model import (
    CorrectionRow,
    CutAdvice,
    FoundIn,
    HoleMove,
    Remedy,
    Standing,
    VersionBuild,
    VersionRow,
)
from armorplan.app.drafting import Home, OpenDraft
from armorplan.app.fit_corrections import FitChange
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.shipped import samples_folder

FOUND = FoundIn(build="elbow_cop-1", name="First watch", version=1, words="a gap of 2 mm")
ADVICE = CutAdvice(
    build="elbow_cop-1",
    build_name="First watch",
    part="petal_left",
    part_name="left petal",
    holes=("left_3",),
    mm=2.0,
    remedy=Remedy.OVAL,
    text="1 hole is out by up to 2.0 mm. File it towards the row.",
    cautions=("Wear goggles.",),
)


@cache
def pattern():
    return read_pattern(read_folder(samples_folder() / "elbow_cop"), read_shelf()).pattern


def move(hole, by):
    held = pattern().hole(hole)
    x, y = held.centre
    return HoleMove(
        hole=hole,
        part=held.part,
        part_name=pattern().part(held.part).name,
        before=(x, y),
        after=(x + by[0], y + by[1]),
    )


def row(key, *, moves=(), standing=Standing.OFFERED, advice=(), causes=()):
    return CorrectionRow(
        key=key,
        title=f"Gap at {key}",
        text=f"The hole at {key} moves.",
        moves=moves,
        found=(FOUND,),
        standing=standing,
        advice=advice,
        changes=(FitChange(table="corrections", id=key, text=f"{key} moved.", values={}),),
        told=None,
        causes=causes,
    )


def corrections(*, said="", kept=()):
    def standing(key):
        return Standing.KEPT if key in kept else Standing.OFFERED

    rows = (
        row(
            "left row",
            moves=(move("left_3", (0.0, 2.0)), move("left_4", (1.0, 0.0))),
            advice=(ADVICE,),
            standing=standing("left row"),
        ),
        row("right row", standing=standing("right row"), causes=("The lame is bent too tight.",)),
        row("boss", moves=(move("boss_left", (0.5, 0.0)),), standing=Standing.KEPT),
    )
    versions = (
        VersionRow(
            version=2,
            note="The boss sits straight.",
            on="2026-11-20",
            from_builds=("First watch",),
            changed=("boss_left moved 0.5 mm.",),
            is_now=True,
        ),
        VersionRow(
            version=1,
            builds=(
                VersionBuild(
                    build="elbow_cop-1",
                    name="First watch",
                    is_open=True,
                    is_cut=True,
                    text="First watch was cut from version 1. Version 2 brought: it sits straight.",
                ),
                VersionBuild(
                    build="elbow_cop-3",
                    name="Third watch",
                    is_open=False,
                    is_cut=False,
                    text="Third watch was begun from version 1; no leather of it is cut yet.",
                ),
            ),
        ),
    )
    draft = SimpleNamespace(pattern=pattern(), name="Elbow cop")
    home = Home(folder=Path("elbow_cop"), saved_texts={})
    builds = (SimpleNamespace(version=1),)
    return Corrections(
        opened=OpenDraft(draft=draft, home=home),
        rows=rows,
        versions=versions,
        said=said,
        builds=builds,
    )


class FakeTaught:
    """Keeps what was accepted; ``refuses`` says why it does not."""

    def __init__(self) -> None:
        self.kept: list[tuple[frozenset[str], str, object]] = []
        self.refuses = ""
        self.said = ""
        self.none = False

    def asking(self, _session):
        done = {key for keys, _, _ in self.kept for key in keys}
        found = corrections(said=self.said, kept=done)
        return lambda: replace(found, rows=()) if self.none else found

    def keep(self, _asked, keys, *, note, on):
        if self.refuses:
            raise ArmorplanError(self.refuses)
        self.kept.append((keys, note, on))
        return "Kept in version 3 of the pattern; builds under way stay as they are."
