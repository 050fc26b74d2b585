"""What follows from a build is derived once in a process: deriving is a pure function of frozen values."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache

import pytest

from armorplan.app import opening, ordered_builds, starting_orders
from armorplan.app.derived import derive_build

KEPT = 8


@contextmanager
def builds_derived_once() -> Iterator[None]:
    """Keep the last few builds that are opened, begun or ordered."""
    once = lru_cache(maxsize=KEPT)(derive_build)
    with pytest.MonkeyPatch.context() as patch:
        for module in (opening, ordered_builds, starting_orders):
            patch.setattr(module, "derive_build", once)
        yield
