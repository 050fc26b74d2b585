"""One solver process for all tests of the planner."""

import pytest

from armorplan.solving.keeper import SolverKeeper


@pytest.fixture(scope="session")
def solver():
    with SolverKeeper() as keeper:
        yield keeper
