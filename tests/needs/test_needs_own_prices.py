"""The cost at a maker's own prices, reckoned by hand on the elbow cop."""

import pytest

from armorplan.app.needs_sections import needs_of, needs_page, tray_named
from armorplan.app.opening import derive_folder, first_sample
from armorplan.files.catalogue import read_shelf
from armorplan.workshop.shop import one_maker

OWN = {
    "leathers.toml": "[cop_and_lame]\nprice_per_ft2 = 11.5\n[strap]\nprice_per_dm2 = 0.9\n",
    "fasteners.toml": "[tubular_9]\nprice_each = 0.12\n",
    "treatments.toml": "[alcohol_dye]\nprice_per_litre = 24.0\n",
    "currency.toml": 'currency = "crown"\n',
}


@pytest.fixture
def needs(tmp_path):
    for name, text in OWN.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    shop = one_maker("UTC")
    derived = derive_folder(first_sample(), read_shelf(own=tmp_path), shop)
    return needs_of(derived, tray_named(shop, ""))


def test_each_line_costs_its_amount_times_its_price(needs):
    cops, straps, *_ = needs.leather
    assert cops.cost == pytest.approx(cops.buy_ft2 * 11.5)
    assert straps.cost == pytest.approx(straps.buy_dm2 * 0.9)
    tubular = [post for post in needs.posts if "tubular" in post.name]
    assert sum(post.cost for post in tubular) == pytest.approx(0.12 * (18 + 3 * 2))
    (dye,) = (liquid for liquid in needs.liquids if liquid.kind == "dye")
    assert dye.wiped.cost == pytest.approx(dye.wiped.uptake_ml / 1000 * 24)


def test_the_total_is_the_sum_of_its_lines_in_the_maker_s_money(needs):
    lines = [*needs.leather, *needs.posts, *needs.hardware, *needs.runs, *needs.glue]
    costs = [line.cost for line in lines] + [one.counted.cost for one in needs.liquids]
    assert needs.cost.total == pytest.approx(sum(cost for cost in costs if cost is not None))
    (row,) = next(s for s in needs_page(needs).sections if s.id == "cost").rows
    assert row.cells[1] == f"{needs.cost.total:.2f} crown"
    assert "Light oil" in row.remarks[0]
    assert "Alcohol dye" not in row.remarks[0]
