"""Commands are run in one process here."""

from collections.abc import Iterator

import pytest
from kept_builds import builds_derived_once


@pytest.fixture(scope="session", autouse=True)
def builds_kept() -> Iterator[None]:
    """Derive no build anew that a command met before."""
    with builds_derived_once():
        yield
