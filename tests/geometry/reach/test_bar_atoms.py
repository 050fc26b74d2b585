"""What is told of ways that admit any tool, the short way and the long way round."""

from math import inf

import pytest

from armorplan.geometry.reach.bar_atoms import standing_wide
from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.margins import standing_of
from armorplan.geometry.reach.model import Standing, Through, Way
from armorplan.workshop.shelf import ToolEntry

REACH_MM = 100.0
HORN = ToolEntry(id="horn", name="Horn", serves=(), source="-", reach_mm=REACH_MM, opening_mm=30.0)


@pytest.mark.parametrize(
    ("along_mm", "least_mm", "standing"),
    [
        (30.0, 10.0, Standing.CURVED),
        (90.0, 10.0, Standing.INSIDE),
        (150.0, 99.0, Standing.END),
        (150.0, 101.0, Standing.END),
        (150.0, 103.0, Standing.CANNOT),
    ],
)
def test_by_the_longest_reach_alone_it_is_the_same_down_to_a_hair(along_mm, least_mm, standing):
    way = Way(name="k", through=Through.ROW, row="row", along_mm=along_mm, least_mm=least_mm)
    bench, offers = Bench(tools={"j": (HORN,)}), ((way, inf),)
    assert standing_of(offers, "j", bench, hollow=False) is standing
    assert standing_wide(offers, "j", bench, shut=Standing.CANNOT) is standing
