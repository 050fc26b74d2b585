"""What a fit showed becomes the pattern's next version: the holes move as far as the plates were out."""

from math import dist, hypot
from shutil import copytree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.app.draft import Bench, Refused, drafted
from armorplan.app.drafting import Home, OpenDraft
from armorplan.app.fit_corrections import CHECKS, CORRECTIONS, changes_for, texts_of, with_findings
from armorplan.app.fit_findings import (
    FitFinding,
    FoundKind,
    finding_from,
    finding_text,
    found_in,
    found_words,
)
from armorplan.app.fit_gathering import gathered
from armorplan.app.fit_keeping import keep_findings
from armorplan.files.catalogue import read_shelf
from armorplan.files.source import read_folder
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.shipped import samples_folder
from armorplan.ledger.events import EventKind
from armorplan.ledger.state import LedgerState
from armorplan.ledger.told import Told
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

BENCH = Bench(shelf=read_shelf(), shop=one_maker("UTC"))


@pytest.fixture(scope="module")
def draft():
    return drafted(read_folder(samples_folder() / "elbow_cop"), BENCH)


@pytest.fixture(scope="module")
def fit(draft):
    return draft.derived.work.of_kind(StepKind.DRY_FIT)[0].id


def finding(kind, about, mm=0.0, note=""):
    return FitFinding(look="gap:left_row", about=about, kind=FoundKind(kind), mm=mm, note=note)


def middle(part):
    points = part.outline
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def test_a_gap_at_a_hole_moves_it_in_from_the_edge_by_as_much(draft, fit):
    made = with_findings(draft, draft.derived, [(fit, finding("gap", "left_row_3", 4.0))])
    before, after = draft.derived.pattern, made.draft.derived.pattern
    start, end = before.hole("left_3").centre, after.hole("left_3").centre
    assert dist(start, end) == pytest.approx(4.0, abs=0.1)
    petal = before.part("petal_left")
    assert dist(end, middle(petal)) < dist(start, middle(petal)) - 3.5
    assert before.hole("middle_left_3") == after.hole("middle_left_3")
    assert (before.version, after.version) == (1, 2)
    assert [c.table for c in made.changes] == ["corrections"]
    assert "left_3 in left petal moved 4 mm in from the edge" in made.changes[0].text


def test_it_moves_square_to_the_row(draft, fit):
    change = changes_for(draft.derived, *gathered([(fit, finding("overlap", "left_row_4", 2.0))]))[
        0
    ]
    before, after = (draft.derived.pattern.hole(f"left_{at}").centre for at in (3, 5))
    along = (after[0] - before[0], after[1] - before[1])
    dx, dy = change.values["move_mm"]
    assert abs(dx * along[0] + dy * along[1]) / hypot(*along) < 0.1
    assert hypot(dx, dy) == pytest.approx(2.0, abs=0.1)


def test_a_gap_along_a_whole_row_moves_each_hole_its_own_way(draft, fit):
    changes = changes_for(draft.derived, *gathered([(fit, finding("gap", "left_row", 2.0))]))
    assert sorted(hole for c in changes for hole in c.values["holes"]) == [
        f"left_{n}" for n in range(1, 8)
    ]
    assert len({change.id for change in changes}) == len(changes)


def test_a_row_is_moved_whole_where_a_strap_s_end_lies_under_one_of_its_holes(draft, fit):
    (told,) = gathered([(fit, finding("gap", "right_row", 2.0))])
    changes = changes_for(draft.derived, told)
    assert [hole for c in changes for hole in c.values["holes"]] == [
        f"right_{n}" for n in range(1, 8)
    ]
    (text,) = texts_of(changes)
    assert text == (
        "Found at the dry fit: a gap of 2 mm, right row: right_1 … right_7 (7 holes) in right petal "
        "moved 2 mm in from the edge for the next cut."
    )
    (text,) = texts_of(changes_for(draft.derived, told, frozenset(("right_3",))))
    assert "(6 holes)" in text
    assert text.endswith("right_3 moves by what was found at it alone.")


def test_a_hole_that_is_marked_on_the_wearer_is_told_and_not_moved(fit, draft):
    marked = draft.put((("joints", "right_row_2", "placed_on_wearer"), True))
    (told,) = gathered([(fit, finding("gap", "right_row", 2.0))])
    (text,) = texts_of(changes_for(marked.derived, told))
    assert text.endswith("right_row_2 is marked on the wearer, and not moved.")
    assert "(6 holes)" in text


def test_where_the_drawing_is_right_the_cut_was_out_and_a_check_comes(draft, fit):
    made = with_findings(draft, draft.derived, [(fit, finding("short", "left_row_7", 3.0))])
    assert [c.table for c in made.changes] == ["fit_checks"]
    check = made.draft.derived.pattern.fit_checks[0]
    assert check.name == "Found at the dry fit: too short by 3 mm, left row, hole 7"
    assert "The holes were not moved in the drawing: Hole 'left_7'" in check.notes


def test_what_is_no_matter_of_mm_is_looked_for_at_the_next_card_mock_up(draft, fit):
    found = finding("pinches", "boss_left", note="Catches the sleeve.")
    made = with_findings(draft, draft.derived, [(fit, found)])
    steps = made.draft.derived.work.of_kind(StepKind.CHECK)
    assert [s.detail for s in steps] == ["Catches the sleeve."]
    assert (
        "Check on the card mock-up of Elbow cop: Found at the dry fit: pinches" in steps[0].title
    )
    assert made.draft.derived.pattern.fit_checks[0].parts == ("boss", "petal_middle")


def test_the_version_rises_once_and_nothing_is_written_twice(draft, fit):
    found = [(fit, finding("gap", "left_row_3", 2.0))]
    once = with_findings(draft, draft.derived, found).draft
    more = [*found, (fit, finding("turned", "petal_left"))]
    twice = with_findings(once, draft.derived, more)
    assert twice.draft.entry("pattern", "")["version"] == 2
    assert len(twice.draft.derived.pattern.corrections) == 1
    assert isinstance(with_findings(once, draft.derived, found), Refused)


def test_what_is_found_later_takes_the_place_of_what_was_written(draft, fit):
    found = [(fit, finding("gap", "left_row_3", 2.0)), (fit, finding("gap", "left_row_3", 3.0))]
    once = with_findings(draft, draft.derived, found[:1]).draft
    twice = with_findings(once, draft.derived, found).draft
    ((_, written),) = twice.entry(CORRECTIONS, "").items()
    assert hypot(*written["move_mm"]) == pytest.approx(3.0, abs=0.1)
    against = [*found, (fit, finding("overlap", "left_row_3", 1.0))]
    last = with_findings(twice, draft.derived, against).draft
    assert not last.entry(CORRECTIONS, "")
    told = [one for one in last.entry(CHECKS, "") if one.startswith("found_")]
    assert told == ["found_left_row_3"]
    assert last.derived.pattern.version == draft.derived.pattern.version + 1


def test_it_is_written_into_the_folder_and_comments_stay(draft, fit, tmp_path):
    folder = copytree(samples_folder() / "elbow_cop", tmp_path / "elbow_cop")
    opened = OpenDraft(draft=draft, home=Home(folder=folder, saved_texts=draft.texts))
    kept = keep_findings(opened, draft.derived, [(fit, finding("gap", "left_row_3", 2.0))])
    text = (folder / "pattern.toml").read_text(encoding="utf-8")
    assert "# Elbow cop of the lantern watch" in text
    assert "[corrections.found_left_row_3]" in text
    assert kept.words.startswith(
        "Kept in version 2 of the pattern; this build stays as it is. Found"
    )
    with pytest.raises(ArmorplanError, match="changed"):
        keep_findings(opened, draft.derived, [(fit, finding("gap", "left_row_4", 2.0))])
    assert (folder / "pattern.toml").read_text(encoding="utf-8") == text


def test_a_sample_is_not_written_to(draft, fit):
    home = Home(folder=samples_folder(), saved_texts=draft.texts, said="This is a sample.")
    with pytest.raises(ArmorplanError, match="This is a sample"):
        keep_findings(
            OpenDraft(draft=draft, home=home), draft.derived, [(fit, finding("turned", "boss"))]
        )


@settings(max_examples=20)
@given(
    st.builds(
        FitFinding,
        look=st.text(),
        about=st.text(min_size=1),
        kind=st.sampled_from(FoundKind),
        mm=st.floats(0, 200),
        note=st.text(),
    )
)
def test_a_finding_reads_as_it_was_told(found):
    assert finding_from(finding_text(found)) == found


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "{}",
        '{"look": "", "about": "a", "kind": "odd"}',
        '{"look": "", "about": "", "kind": "gap"}',
        '{"look": "", "about": "a", "kind": "gap", "mm": -1}',
        '{"look": "", "about": "a", "kind": "gap", "mm": "wide"}',
        '{"look": "", "about": "a", "kind": "gap", "mm": NaN}',
    ],
)
def test_what_is_none_is_refused_and_left_out_of_the_ledgers(text, fit):
    with pytest.raises(ArmorplanError):
        finding_from(text)
    good = finding_text(finding("gap", "left_row", 1.0))
    told = tuple(
        Told(id=str(at), kind=EventKind.FOUND, step=fit, text=each, at=None)
        for at, each in enumerate((text, good))
    )
    assert found_in(LedgerState(told=told)) == ((fit, finding("gap", "left_row", 1.0)),)


def test_words_say_how_far():
    assert found_words(finding("gap", "a", 4.0)) == "a gap of 4 mm"
    assert found_words(finding("long", "a", 2.5)) == "too long by 2.5 mm"
    assert found_words(finding("pinches", "a")) == "pinches"
