"""What is told of a kind of step in the tab of what is signed off."""

import pytest

from armorplan.app.practice_protocol import SkillRow
from armorplan.desktop.practice_rows import skill_told
from armorplan.workshop.skill_how import SkillHow


@pytest.mark.parametrize("how", [SkillHow.ALONE, SkillHow.BESIDE, SkillHow.NOT_YET])
def test_of_what_is_done_beside_somebody_it_is_told_when_plans_have_it_so(how):
    row = SkillRow(
        person="ib", name="Ib", kind="rivet", holds=how, sentence="So.", practised="Seen."
    )
    when = "where that is quicker, or where both are there and nothing ends later."
    assert (when in skill_told(row)) == (how is SkillHow.BESIDE)
    assert skill_told(row).startswith("So. ")
    assert skill_told(row).endswith(" Seen.")
