"""A pattern with every word of the format, built with each of its choices."""

from pathlib import Path

import pytest

from armorplan.app.derived import derive_build
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.pattern.choosing import settled
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

FOLDER = Path(__file__).resolve().parents[1] / "golden_patterns" / "form_1" / "every_word"


@pytest.fixture(scope="module")
def pattern():
    read = read_pattern(read_folder(FOLDER), read_shelf()).pattern
    assert read is not None
    return read


def built(pattern, **chosen):
    return derive_build(settled(pattern, chosen), read_shelf(), one_maker(), build="b")


def minutes(derived, kind):
    return sum(step.minutes for step in derived.work.of_kind(kind))


@pytest.mark.parametrize(
    "chosen",
    [
        {},
        {"look": "plain"},
        {"rim": "cut"},
        {"cutting": "by_machine"},
        {"bath": "dipped"},
        {"look": "plain", "rim": "cut", "cutting": "by_machine", "bath": "dipped"},
    ],
    ids=lambda chosen: "+".join(chosen.values()) or "as written",
)
def test_every_choice_leaves_a_build_with_an_order_and_titles_of_its_own(pattern, chosen):
    derived = built(pattern, **chosen)
    assert set(derived.order) == {step.id for step in derived.work.steps}
    titles = [step.title for step in derived.work.steps]
    assert len(set(titles)) == len(titles)
    parts = {part.id for part in derived.assembly.parts}
    assert all(parts.issuperset(step.parts) for step in derived.work.steps)


def test_a_plain_leg_has_no_badge_no_boss_and_no_tooling(pattern):
    plain = built(pattern, look="plain")
    assert not plain.work.of_kind(StepKind.TOOL)
    made = {part.part.id for part in plain.assembly.parts}
    assert not made & {"watch_badge", "boss"}
    assert {"watch_badge", "boss"} <= {p.part.id for p in built(pattern).assembly.parts}


def test_choices_change_the_minutes_of_what_they_touch(pattern):
    by_hand, machine = built(pattern), built(pattern, cutting="by_machine")
    assert minutes(machine, StepKind.CUT) < minutes(by_hand, StepKind.CUT)
    assert minutes(machine, StepKind.LAY_OUT) < minutes(by_hand, StepKind.LAY_OUT)
    assert minutes(machine, StepKind.RIVET) == minutes(by_hand, StepKind.RIVET)
    dipped = built(pattern, bath="dipped")
    assert minutes(dipped, StepKind.DYE) < minutes(by_hand, StepKind.DYE)
    wiped = {step.id for step in by_hand.work.steps}
    more = {step.kind for step in dipped.work.steps if step.id not in wiped}
    assert wiped <= {step.id for step in dipped.work.steps}
    assert more == {StepKind.DRIP, StepKind.WATCH}, "what is dipped drips, and is turned and wiped"


def test_a_cut_rim_is_not_folded(pattern):
    folded, cut = built(pattern), built(pattern, rim="cut")
    gone = {s.id for s in folded.work.steps} - {s.id for s in cut.work.steps}
    assert {step.rsplit("/", 1)[-1].split(".")[0] for step in gone} == {"rim_fold"}
