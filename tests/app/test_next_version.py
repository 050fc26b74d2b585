"""What a build at the bench teaches its pattern, through the folder of a real pattern."""

from functools import partial

import pytest
from app.conftest import SHOP
from folders_cli import copy_sample

from armorplan.app.draft import Bench as DraftBench
from armorplan.app.drafting import draft_of
from armorplan.app.fit_findings import FitFinding, FoundKind, finding_text
from armorplan.app.next_version import NextVersion
from armorplan.files.catalogue import read_shelf
from armorplan.files.source import PATTERN_FILE
from armorplan.kernel.errors import ArmorplanError
from armorplan.steps.model import StepKind

DRAFTS = DraftBench(shelf=read_shelf(), shop=SHOP)


@pytest.fixture
def folder(tmp_path):
    return copy_sample(tmp_path)


@pytest.fixture
def teaching(folder):
    return NextVersion(lambda session: partial(draft_of, session.build, folder, DRAFTS))


def pattern(folder):
    return (folder / PATTERN_FILE).read_text(encoding="utf-8")


def test_the_likeliest_is_the_last_one_done_that_could_have_waited(bench, teaching):
    session = bench.session
    bench.do_until(StepKind.RIVET)
    rivets = bench.ids(StepKind.RIVET)
    assert session.done((rivets[1],))
    assert session.done((rivets[0],))
    late = rivets[2]
    offered = [one.step for one in teaching.befores(session, late)]
    assert offered[:2] == [rivets[0], rivets[1]]
    assert late not in offered
    assert all(session.derived.work.step(one).attended for one in offered)
    assert teaching.title(session, late) == session.derived.work.step(late).title
    assert teaching.title(session, "no such step") == ""
    assert teaching.befores(session, bench.ids(StepKind.CUT)[0]) != ()


def test_two_steps_become_a_relation_and_the_running_build_stays(bench, teaching, folder):
    session, before = bench.session, pattern(folder)
    rivets = bench.ids(StepKind.RIVET)
    late = next(r for r in rivets if r.endswith("/boss_left"))
    row = next(r for r in rivets if r.endswith("/tab_bottom"))
    order = session.derived.order
    said = teaching.earlier(session, late, row)()
    assert "This build stays as it is." in said
    assert "[relations.earlier_" in pattern(folder)
    assert pattern(folder) != before
    assert session.derived.order is order
    with pytest.raises(ArmorplanError, match="says so already"):
        teaching.earlier(session, late, row)()


def test_what_cannot_be_earlier_is_refused_and_nothing_is_written(bench, teaching, folder):
    before = pattern(folder)
    rivet, cut = bench.ids(StepKind.RIVET)[0], bench.ids(StepKind.CUT)[0]
    with pytest.raises(ArmorplanError, match="cannot stand before"):
        teaching.earlier(bench.session, rivet, cut)()
    assert pattern(folder) == before


def test_a_finding_moves_holes_in_the_next_version(bench, teaching, folder):
    session = bench.session
    (fit,) = bench.ids(StepKind.DRY_FIT)
    found = FitFinding(look="gap:left_row", about="left_row", kind=FoundKind.GAP, mm=2.0)
    session.way_back.found(fit, finding_text(found))
    assert teaching.found(session) == ((fit, "a gap of 2 mm, left row"),)
    said = teaching.correcting(session)()
    assert "Kept in version" in said
    assert "found_left_row" in pattern(folder)
    session.undo()
    assert teaching.found(session) == ()


def test_only_a_build_of_the_workshop_has_a_pattern(teaching):
    with pytest.raises(TypeError, match="has a pattern"):
        teaching.found(object())
