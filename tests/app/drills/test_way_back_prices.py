"""What a way back comes to can be reckoned from what stands beside it, and by nothing less."""

import re

import pytest
from app.drills.way_back_sets import MADE, WHYS, every_drill
from orders.recovery.build_scenes import SAMPLES

from armorplan.app.mending import WAY_BACK


@pytest.fixture(scope="module")
def drills():
    """Return by sample its exercises with what each of their answers is worth."""
    return every_drill()


MINUTES = {"min": 1, "h": 60, "day": 1440, "days": 1440}
TAKES = re.compile(
    r"Takes (\d+) min at the bench(?:, ([^,]+) of waiting)?, "
    r"(?:hardly ever goes wrong|goes wrong (once|\d+ times) in a hundred[^(]*\((\d+) min are lost then\))"
)


def reckoned(choice):
    """Reckon what a way comes to, as the exercise tells it to be weighed, from what stands beside it."""
    bench, wait, risk, lost = TAKES.search(choice.detail).groups()
    waits = re.findall(r"(\d+) (min|h|days?)", wait or "")
    waited = sum(int(count) * MINUTES[unit] for count, unit in waits)
    return (
        int(bench)
        + 3 * waited / 60
        + (1 if risk == "once" else int((risk or "0").split()[0])) / 100 * int(lost or 0)
    )


def test_what_stands_beside_the_ways_is_enough_to_reckon_which_costs_least(drills):
    for name in SAMPLES:
        for drill, worth in drills[name]:
            options = MADE[name, drill.asked].options
            mild = {
                choice.id: reckoned(choice)
                for choice, option in zip(drill.choices, options, strict=True)
                if option.leads and not option.way.is_risky
            }
            most = min(mild.values()) + max(3, 0.1 * min(mild.values()))
            assert {one for one, sum_min in mild.items() if sum_min <= most + 1} == {
                one for one, each in worth.items() if each.right
            }
            assert "an hour of waiting as 3" in drill.given[-1]
            for choice in drill.choices:
                assert not re.search(r"\d+ more\b", choice.detail)
                assert "''" not in choice.detail
                assert TAKES.search(choice.detail)


def test_neither_the_least_sum_nor_the_least_work_is_always_right(drills):
    least, quick, seen = 0, 0, 0
    for some in drills.values():
        for drill, worth in some:
            seen += 1
            least += worth[min(drill.choices, key=reckoned).id].right
            work = min(drill.choices, key=lambda one: int(TAKES.search(one.detail)[1]))
            quick += worth[work.id].right
    assert 0.2 < least / seen < 0.7
    assert 0.2 < quick / seen < 0.7


def test_what_tells_whether_a_salvage_will_do_is_told_before(drills):
    """Each number that is told afterwards of why one will not do stands in the exercise already."""
    looked = 0
    for some in drills.values():
        for drill, worth in some:
            known = " ".join((*drill.given, *(one.detail for one in drill.choices)))
            for each in worth.values():
                text = each.because[0].text
                if each.right or each.because[0].rule != WAY_BACK or not text.startswith("It "):
                    continue
                looked += 1
                if "hole diameters" in text:
                    assert text.split("hole diameters")[0].split()[-1] in known
                elif found := re.search(r"good (?:up to|from) ([\d.]+ mm)", text):
                    assert found[1] in known
                elif "colour" in text:
                    assert "The colour is" in known
    assert looked > 3


def test_a_right_way_is_told_beside_the_others_by_the_same_numbers(drills):
    beside = 0
    for some in drills.values():
        for drill, worth in some:
            sums = {round(reckoned(one)) for one in drill.choices}
            for choice in drill.choices:
                text = worth[choice.id].because[0].text
                said = [int(one) for one in re.findall(r"(\d+) min in all", text)]
                others = re.search(r"back comes? to ([\d, and]+) min", text)
                said += map(int, re.findall(r"\d+", others[1])) if others else []
                assert all(any(abs(one - each) <= 1 for each in sums) for one in said)
                assert not re.search(r"\d\.\d+ min in all", text)
                beside += len(said) > 1
    assert beside > 10


def test_the_second_question_asks_what_the_way_comes_to(drills):
    for name in SAMPLES:
        for drill, worth in drills[name]:
            right = next(one for one, each in worth.items() if each.right)
            why = WHYS[name, drill.asked]
            assert drill.choice(right).title in why.question
            assert 3 <= len(why.choices) <= 4
            whys = dict(why.because)
            assert set(whys) == {one.id for one in why.choices}
            for one in why.choices:
                head, _, tail = one.title.rpartition(": ")
                parts = re.findall(r"(\d+) min at|waiting as (\d+)|min as (\d+)", head)
                summed = sum(int(each) for some in parts for each in some if each)
                assert summed == int(tail.partition(" ")[0])
                is_right = summed == pytest.approx(reckoned(drill.choice(right)), abs=1.01)
                assert whys[one.id].startswith("Not true of this way") is (one.id != why.right)
                assert is_right or one.id != why.right


def test_a_wrong_way_is_told_what_it_and_the_right_one_come_to(drills):
    """By what stands beside the ways; and it is told in more than the sentence says itself."""
    halted = 0
    for name in SAMPLES:
        for drill, worth in drills[name]:
            options = MADE[name, drill.asked].options
            for choice, option in zip(drill.choices, options, strict=True):
                told = worth[choice.id]
                if told.right:
                    continue
                best = drill.choice(told.nearest[0])
                (text,) = [one.text for one in told.because if "min in all" in one.text]
                assert text not in told.sentence
                said = [int(one) for one in re.findall(r"(\d+) min in all", text)]
                wanted = [reckoned(best)] if option.leads and option.way.is_risky else []
                wanted = wanted or [reckoned(choice), reckoned(best)]
                assert said == [pytest.approx(one, abs=1.01) for one in wanted]
                assert f"'{best.title}'" in text
                halted += not option.leads
    assert halted > 10
