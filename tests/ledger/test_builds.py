"""Numbers of builds."""

import pytest

from armorplan.ledger.builds import next_build_id


@pytest.mark.parametrize(
    ("taken", "given"),
    [
        ((), "elbow_cop-1"),
        (("elbow_cop-1", "elbow_cop-3"), "elbow_cop-4"),
        (("elbow_cop-9", "elbow_cop-10"), "elbow_cop-11"),
        (("collar-7", "elbow_cop-old", "elbow_cop"), "elbow_cop-1"),
    ],
)
def test_the_next_number_is_above_all_that_are_taken(taken, given):
    assert next_build_id("elbow_cop", taken) == given
