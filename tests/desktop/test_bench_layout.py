"""Where all of the bench view lies: nothing hides anything, and letters stay large."""

from itertools import pairwise
from math import ceil

import pytest

from armorplan.desktop.bench_layout import LEAST_BODY_PX, Band, BenchTexts, lay_bench
from armorplan.desktop.bench_type import LEAST_TARGET_PX

RIVET = BenchTexts(
    title="Rivet far rib row (left), 1 of 4",
    facts=(
        "Double-cap rivet, 9 mm cap, post 8 mm",
        "Rivet setter, anvil and hammer",
        "Far rib on upper-arm plate",
        "About 4 min by hand",
    ),
    kept=2,
    caution="Wear eye protection and hearing protection. +1: M",
    commit="After this, 3 joints are out of reach of everything but the long stake.",
)
LONG = BenchTexts(
    title="Light oil, one thin coat, Lower arm (right): outer forearm plate (right), inner forearm "
    "plate (right), wrist hinge (right) and elbow-end hinge (right)",
    facts=("4 parts", "About 7 min by hand"),
    kept=1,
    caution="Oily rags can heat up by themselves and burn: spread them flat outdoors or keep them "
    "wet in a closed metal bin. +2: M",
    commit="This cannot be taken back: oil does not come out of leather again.",
    foot_lines=2,
    foot_is_target=True,
)
SCREENS = ((1366, 768, 46), (1920, 1080, 35), (1024, 768, 32), (1280, 800, 43), (700, 420, 30))


def measure(text, wide, px, *, bold=False):
    """Letters of half their size on lines of 1.2 sizes."""
    per_line = max(1, int(wide / (px * (0.6 if bold else 0.55))))
    return ceil(len(text) / per_line) * round(1.2 * px)


@pytest.mark.parametrize("texts", [RIVET, LONG])
@pytest.mark.parametrize("screen", SCREENS)
def test_bands_lie_below_each_other_within_the_view(screen, texts):
    wide, high, px = screen
    laid = lay_bench(wide, high, px, texts, measure)
    down = [laid.boxes[b] for b in (Band.HEAD, Band.TITLE, Band.FACTS)]
    down += [laid.boxes[b] for b in (Band.CAUTION, Band.COMMIT, Band.FOOT, Band.VERBS)]
    for above, below in pairwise(down):
        assert above.y + above.high <= below.y
    assert down[-1].y + down[-1].high <= high
    title, picture = laid.boxes[Band.TITLE], laid.boxes[Band.PICTURE]
    assert title.x + title.wide <= picture.x
    assert picture.x + picture.wide <= wide
    assert picture.y + picture.high <= laid.boxes[Band.CAUTION].y


@pytest.mark.parametrize("texts", [RIVET, LONG])
@pytest.mark.parametrize("screen", SCREENS)
def test_what_is_pressed_is_as_large_as_a_knuckle(screen, texts):
    laid = lay_bench(*screen, texts, measure)
    assert laid.boxes[Band.VERBS].high >= LEAST_TARGET_PX
    if texts.foot_is_target:
        assert laid.boxes[Band.FOOT].high >= LEAST_TARGET_PX


@pytest.mark.parametrize("screen", SCREENS[:4])
def test_a_rivet_is_read_at_full_size_on_the_screens_of_the_bench(screen):
    laid = lay_bench(*screen, RIVET, measure)
    assert laid.share >= 1
    assert laid.facts[:2] == RIVET.facts[:2]


def test_facts_that_can_be_spared_go_before_letters_become_smaller():
    laid = lay_bench(1366, 768, 46, RIVET, measure)
    assert laid.share >= 1
    assert len(laid.facts) < len(RIVET.facts)
    roomy = lay_bench(1920, 1080, 35, RIVET, measure)
    assert roomy.facts == RIVET.facts


def test_letters_become_smaller_where_what_is_needed_has_no_room():
    laid = lay_bench(1366, 768, 46, LONG, measure)
    assert LEAST_BODY_PX < laid.body_px < 46
    assert laid.share == pytest.approx(laid.body_px / 46)
    assert laid.facts[:1] == LONG.facts[:1]


def test_the_title_is_the_largest():
    laid = lay_bench(1920, 1080, 35, RIVET, measure)
    assert laid.title_px > laid.body_px
