"""The tables of pattern.toml on size: what it was drawn for, and what follows which measure."""

from collections.abc import Iterator

from armorplan.app.bringing.naming import Names
from armorplan.app.bringing.standing import Standing
from armorplan.files.bare_pattern import plain_id
from armorplan.files.brought_text import Written

_GUESS = "A guess, the middle of adults: put in the measures it was drawn for."


def wearer_tables(stands: Standing, names: Names) -> Iterator[Written]:
    """Give what it was drawn for, then who follows it; pieces for one limb share their tables."""
    for key, mm, is_said in stands.worn.measures:
        yield Written(
            path=("drawn_for", key),
            values={"mm": int(mm) if mm == int(mm) else mm, "notes": None if is_said else _GUESS},
        )
    groups: dict[tuple[str, str, str], list[str]] = {}
    for each in stands.worn.followed:
        groups.setdefault((each.limb, each.along, each.around), []).extend(each.parts)
    taken: list[str] = []
    for (limb, along, around), parts in groups.items():
        what = "plates" if along and around else "along" if along else "round"
        taken.append(plain_id(f"{limb}_{what}", taken, otherwise="scaling"))
        yield Written(
            path=("scalings", taken[-1]),
            values={
                "parts": [names.parts[part] for part in parts],
                "along": along or None,
                "around": around or None,
            },
        )
