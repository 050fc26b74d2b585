"""What is kept from reckoning to reckoning is let go, so that a benchmark begins from cold."""

import sys


def forget() -> None:
    """Empty every memory of the geometry and of the files that are read."""
    for name, module in tuple(sys.modules.items()):
        if name.startswith(("armorplan.geometry", "armorplan.files")):
            for kept in tuple(vars(module).values()):
                if hasattr(kept, "cache_clear"):
                    kept.cache_clear()
