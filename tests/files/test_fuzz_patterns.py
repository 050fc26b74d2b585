"""Spoilt patterns by the hundred: 300 in every run, 5,000 where asked for (pytest -m long)."""

import shutil

import pytest
from files.judged import judge, put
from files.spoilt import spoil
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

BLOCK = 25
SEEDED = 75
DRAWN = 30
LONG = 5_000


def _judge_seed(seed, home):
    folder = home / "pattern"
    put(folder, spoil(seed))
    try:
        judge(folder)
        for drawing in sorted(folder.glob("[!l]*.svg")):
            if seed % 5 == 0:
                judge(drawing, folder)
    except BaseException as error:
        error.add_note(f"files.spoilt.spoil({seed})")
        raise
    finally:
        shutil.rmtree(folder)


@pytest.mark.parametrize("first", range(0, SEEDED, BLOCK))
def test_spoilt_patterns_give_findings_or_a_pattern(tmp_path, first):
    for seed in range(first, first + BLOCK):
        _judge_seed(seed, tmp_path)


@pytest.mark.parametrize("seed", [457, 1926, 2881, 2923, 3402, 4123])
def test_a_line_beside_a_strap_meets_no_leather(tmp_path, seed):
    """Found at length: holes outside the outline they were given to."""
    _judge_seed(seed, tmp_path)


@pytest.mark.long
@pytest.mark.parametrize("first", range(SEEDED, SEEDED + LONG, 10 * BLOCK))
def test_spoilt_patterns_at_length(tmp_path, first):
    for seed in range(first, first + 10 * BLOCK):
        _judge_seed(seed, tmp_path)


@given(st.integers(10**6, 10**9))
@settings(
    max_examples=DRAWN, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_patterns_spoilt_at_any_seed(tmp_path, seed):
    _judge_seed(seed, tmp_path)
