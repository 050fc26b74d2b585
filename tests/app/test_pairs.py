"""A mirrored pair and a pattern of two pieces, all the way from the folder to the plan."""

from zoneinfo import ZoneInfo

import pytest
from clocks import FakeClock
from folders_cli import copy_sample

from armorplan.app.opening import open_build
from armorplan.app.rows import Grouping
from armorplan.app.session import Session
from armorplan.files.catalogue import read_shelf
from armorplan.relations.index import named_steps
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.planning import first_plan
from armorplan.steps.model import StepKind
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shop import one_maker


def seated(tmp_path, zone: str, *changes: tuple[str, str]):
    folder = copy_sample(tmp_path)
    toml = folder / "pattern.toml"
    text = toml.read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    toml.write_text(text, encoding="utf-8")
    clock = FakeClock()
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", clock)
    opened = open_build(folder, workshop, read_shelf(), one_maker(zone), clock=clock)
    session = Session(opened.build, opened.derived, workshop, clock, new_id=lambda: "press")
    problem = session.problem()
    assert session.take_plan(CheckedPlan(problem=problem, plan=first_plan(problem)))
    return session, workshop


@pytest.fixture
def pair(tmp_path):
    session, workshop = seated(
        tmp_path, "America/New_York", ("mirrored = false", "mirrored = true")
    )
    yield session
    workshop.close()


TWO_PIECES = (
    ("[pieces.elbow_cop]\n", '[pieces.straps]\nname = "Straps"\n\n[pieces.elbow_cop]\n'),
    ('name = "closing strap"\npiece = "elbow_cop"', 'name = "closing strap"\npiece = "straps"'),
    ('pieces = ["elbow_cop"]', 'pieces = ["elbow_cop", "straps"]'),
)


@pytest.fixture
def two(tmp_path):
    session, workshop = seated(tmp_path, "UTC", *TWO_PIECES)
    yield session
    workshop.close()


ON_PAPER = (StepKind.MEASURE, StepKind.MOCK_UP)


def test_left_and_right_have_every_step_of_their_own_but_paper_and_card(pair):
    sides = {
        side: [s for s in pair.derived.order if f"/{side}/" in s] for side in ("left", "right")
    }
    once = pair.derived.work.of_kind(*ON_PAPER)
    assert [s.side for s in once] == ["left"] * len(ON_PAPER)
    assert len(sides["left"]) - len(once) == len(sides["right"])
    assert len(sides["left"]) + len(sides["right"]) == len(pair.derived.order)
    titles = [pair.derived.work.step(step).title for step in pair.derived.order]
    assert len(set(titles)) == len(titles)


def test_both_sides_are_drawn_apart_and_mirrored(pair):
    parts = {part.id: part for part in pair.diagram().parts}
    left, right = parts["petal_left.left"].outline, parts["petal_left.right"].outline
    assert max(x for x, _ in left) < min(x for x, _ in right)
    axis = {round(a[0] + b[0], 6) for a, b in zip(left, right, strict=True)}
    assert len(axis) == 1
    assert all(a[1] == b[1] for a, b in zip(left, right, strict=True))


def test_what_one_side_waits_for_is_on_that_side(pair):
    for relation in pair.derived.relations:
        sides = {step.split("/")[2] for step in named_steps(relation)}
        paper = {pair.derived.work.step(s).kind for s in named_steps(relation)} & {*ON_PAPER}
        assert len(sides) == 1 or paper or not relation.reason.binds


def test_the_pair_shares_hide_and_baths_without_having_to(pair):
    both = [
        r for r in pair.derived.relations if len({s.split("/")[2] for s in named_steps(r)}) > 1
    ]
    assert {r.reason.rule for r in both if r.reason.binds} == {
        "mock-up-before-lay-out",
        "paper-before-leather",
    }
    assert {r.reason.rule for r in both if not r.reason.binds} == {
        "pair-from-one-hide",
        "pair-shares-baths",
    }


def test_the_chart_of_a_shop_far_away_closes_its_own_nights(pair):
    zone, chart = ZoneInfo("America/New_York"), pair.chart()
    assert {bar.step for bar in chart.bars} == set(pair.derived.order)
    noon = [bar for bar in chart.bars if bar.attended]
    for bar in noon:
        assert all(bar.end_at <= start or end <= bar.start_at for start, end in chart.closed), (
            bar.title
        )
    assert all(9 <= bar.start_at.astimezone(zone).hour < 18 for bar in noon)


def test_a_joint_between_two_pieces_is_tried_and_fitted_with_both(two):
    work = two.derived.work
    (rivet,) = (s for s in work.of_kind(StepKind.RIVET) if s.joints == ("right_row_4",))
    (tried,) = (f for f in work.of_kind(StepKind.DRY_FIT) if "right_row_4" in f.joints)
    assert "closing_strap" in tried.parts
    fits = {s.id for s in work.of_kind(StepKind.FIT) if set(s.parts) & set(rivet.parts)}
    held_up = {line.other for line in two.why(rivet.id).holds_up}
    assert len(fits) == 2
    assert fits <= held_up


def test_two_pieces_have_a_heading_each(two):
    headings = [r.title for r in two.checklist(Grouping.PIECE) if r.parent is None]
    assert headings == ["Elbow cop", "Straps"]
