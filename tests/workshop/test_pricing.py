"""A running build knows the prices of today, and nothing else of today's shelf."""

from dataclasses import replace

from armorplan.files.catalogue import read_shelf
from armorplan.workshop.pricing import with_prices


def test_prices_and_currency_are_of_today_and_all_else_is_kept():
    kept = read_shelf()
    fastener = kept.fasteners[0]
    today = replace(
        kept,
        fasteners=(
            replace(fastener, price_each=0.4, head_mm=fastener.head_mm + 1),
            *kept.fasteners[1:],
        ),
        leathers=(),
        currency="crown",
    )
    priced = with_prices(kept, today)
    assert priced.fasteners[0] == replace(fastener, price_each=0.4)
    assert priced.leathers == kept.leathers
    assert priced.currency == "crown"


def test_a_price_that_is_gone_today_is_gone():
    kept = read_shelf()
    once = replace(kept, leathers=tuple(replace(e, price_per_dm2=2.0) for e in kept.leathers))
    assert with_prices(once, kept).leathers == kept.leathers
