"""Altered shapes by the hundred: 75 in every run, 3,000 where asked for (pytest -m long)."""

import shutil

import pytest
from files.judged import judge, put
from files.spoilt_shapes import spoil_shapes

BLOCK = 15
SEEDED = 15
LONG = 3_000


def _judge_seed(seed, home):
    folder = home / "pattern"
    put(folder, spoil_shapes(seed))
    try:
        return judge(folder)
    except BaseException as error:
        error.add_note(f"files.spoilt_shapes.spoil_shapes({seed})")
        raise
    finally:
        shutil.rmtree(folder)


@pytest.mark.parametrize("first", range(0, SEEDED, BLOCK))
def test_altered_shapes_give_findings_or_a_pattern(tmp_path, first):
    for seed in range(first, first + BLOCK):
        _judge_seed(seed, tmp_path)


@pytest.mark.long
@pytest.mark.parametrize("first", range(SEEDED, SEEDED + LONG, 10 * BLOCK))
def test_altered_shapes_at_length(tmp_path, first):
    for seed in range(first, first + 10 * BLOCK):
        _judge_seed(seed, tmp_path)
