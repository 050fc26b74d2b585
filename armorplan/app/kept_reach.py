"""Keeps a tool's reach, learned at the bench, in the maker's own tools."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from armorplan.app.former_trial import LEARNED, Trial, trial_source
from armorplan.app.learned_reach import LearnedReach
from armorplan.app.own_catalogue import keep_decided
from armorplan.files.catalogue import TOOLS_FILE, read_shelf
from armorplan.kernel.errors import ArmorplanError
from armorplan.workshop.shelf import ToolEntry

_OWN = "own value for reach_mm;"
_OTHERWISE = "; otherwise: "


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptReach:
    """A tool's reach as it now stands in a maker's own catalogue, and what it was."""

    path: Path
    name: str
    value_mm: float
    former_mm: float


def keep_reach(own_catalogues_dir: Path, learned: LearnedReach, on: date) -> KeptReach:
    """Write what was learned into the maker's own tools.toml; all else in it stays as it is.

    Raises:
        UnreadableError: the own catalogues have faults; nothing is written.
        ArmorplanError: nothing follows, the shelf has changed since, or it cannot be written.
    """
    if learned.becomes_mm is None:
        message = f"{learned.follows} Nothing was kept."
        raise ArmorplanError(message)
    becomes_mm, found = learned.becomes_mm, list[tuple[str, float]]()

    def decide() -> dict[str, float | str]:
        tool, former_mm = _still_as_reckoned(own_catalogues_dir, learned)
        found.append((tool.name, former_mm))
        trial = Trial(
            joint=learned.at or learned.joint,
            did_reach=learned.did_reach,
            after=len(learned.made),
            former_mm=former_mm,
        )
        return {
            "reach_mm": becomes_mm,
            "source": f"{trial_source(trial, on)}{_OTHERWISE}{_former_source(tool)}",
        }

    path = keep_decided(own_catalogues_dir, TOOLS_FILE, learned.tool, decide)
    name, former_mm = found[-1]
    return KeptReach(path=path, name=name, value_mm=becomes_mm, former_mm=former_mm)


def _still_as_reckoned(own_catalogues_dir: Path, learned: LearnedReach) -> tuple[ToolEntry, float]:
    own = own_catalogues_dir if own_catalogues_dir.is_dir() else None
    tool = next((t for t in read_shelf(own=own).tools if t.id == learned.tool), None)
    if tool is None or tool.reach_mm is None or tool.reach_mm != learned.reach_mm:
        message = (
            f"The reach of '{learned.tool}' is no longer what this was reckoned with. Nothing was "
            "kept: ask again."
        )
        raise ArmorplanError(message)
    return tool, tool.reach_mm


def change_words(learned: LearnedReach, own_catalogues_dir: Path) -> str:
    """Say what is to be written where, as an infinitive; only of what follows."""
    return (
        f"write reach_mm = {learned.becomes_mm:g} under [{learned.tool}] in "
        f"{own_catalogues_dir / TOOLS_FILE}"
    )


def kept_words(kept: KeptReach, tool: str) -> tuple[str, str]:
    """Say what was kept and how to take it back, and where it was written."""
    now = f"Kept for {kept.name}: reach_mm = {kept.value_mm:g}; it was {kept.former_mm:g}."
    back = f"To take it back, write reach_mm = {kept.former_mm:g} there, under [{tool}]."
    return f"{now} {back}", f"Written: {kept.path}"


def _former_source(tool: ToolEntry) -> str:
    """Return where the rest of a tool's values is from, past what was said of its reach alone."""
    if tool.source.startswith((LEARNED, _OWN)):
        return tool.source.partition(_OTHERWISE)[2] or tool.source
    return tool.source
