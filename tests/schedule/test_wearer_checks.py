"""A build that names no wearer in a shop of two, and who looks a piece over at its fit."""

from dataclasses import replace

import pytest
from schedule.in_hand import APPRENTICE, CAPTAIN, MAKER, MONDAY_8, SHOP, cuff, in_hand

from armorplan.kernel.findings import Place, Severity
from armorplan.pattern.wearing import CheckTime, FitCheck
from armorplan.schedule.joining import joined_problem
from armorplan.schedule.shop_findings import findings_of
from armorplan.schedule.wearer_checks import wearer_findings
from armorplan.workshop.shop import Wearer

MATE = Wearer(id="mate", name="Mate", hours=CAPTAIN.hours)
TWO = replace(SHOP, wearers=(CAPTAIN, MATE))
PLACES = {"builds.b": Place(file="shop.toml", line=3, key="b")}


def test_a_build_of_nobody_in_a_shop_of_two_wearers_is_told():
    builds = (in_hand("b", shop=TWO),)
    (finding,) = wearer_findings(builds, places=PLACES)
    assert (finding.code, finding.severity) == ("no-wearer-named", Severity.WARNING)
    assert "Build b names no wearer, and the shop has 2 (Captain, Mate)" in finding.text
    assert 'wearer = "captain"' in finding.remedy
    assert finding.place == PLACES["builds.b"]
    assert finding in findings_of(
        builds, joined_problem(builds, origin_at=MONDAY_8), places=PLACES
    )


def test_a_build_that_names_its_wearer_is_in_order_and_so_is_one_of_the_only_one():
    assert wearer_findings((in_hand("b", shop=TWO, wearer="mate"),)) == ()
    assert wearer_findings((in_hand("b"),)) == ()


@pytest.mark.parametrize(
    ("when", "kind"),
    [(CheckTime.FIT, "fit"), (CheckTime.DRY_FIT, "dry-fit"), (CheckTime.MOCK_UP, "mock-up")],
)
def test_who_tries_a_piece_on_looks_it_over(when, kind):
    """The apprentice may check, but does not do this trial."""
    helper = replace(APPRENTICE, cannot=(*APPRENTICE.cannot, kind))
    shop = replace(SHOP, people=(MAKER, helper))
    check = FitCheck(id="bends", name="the arm bends", piece="piece", when=when)
    pattern = replace(cuff(), fit_checks=(check,))
    problem = joined_problem((in_hand("b", pattern, shop=shop),), origin_at=MONDAY_8)
    (found,) = [a for a in problem.activities if "/check/" in a.id]
    assert found.people == ("maker",)
    both = joined_problem((in_hand("b", pattern),), origin_at=MONDAY_8)
    assert [a.people for a in both.activities if "/check/" in a.id] == [("maker", "apprentice")]
