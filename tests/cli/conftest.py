"""Commands are run in one process here; what follows from a build they met before is not derived anew."""

from collections.abc import Iterator
from functools import lru_cache

import pytest

from armorplan.app import opening, ordered_builds, starting_orders
from armorplan.app.derived import derive_build

KEPT = 8


@pytest.fixture(scope="session", autouse=True)
def builds_kept() -> Iterator[None]:
    """Keep the last few builds: deriving is a pure function of frozen values."""
    once = lru_cache(maxsize=KEPT)(derive_build)
    with pytest.MonkeyPatch.context() as patch:
        for module in (opening, ordered_builds, starting_orders):
            patch.setattr(module, "derive_build", once)
        yield
