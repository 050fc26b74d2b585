"""What the window keeps of a test strip is written where catalogues are read from next."""

from functools import partial

import pytest

from armorplan.cli.reading import shelf_for
from armorplan.cli.window_command import _keep_strip, _leathers
from armorplan.geometry.bends.strip import StripResult
from armorplan.kernel.errors import ArmorplanError


def test_it_is_written_and_read_with_the_next_build(tmp_path):
    named = _leathers(partial(shelf_for, tmp_path))
    leather, name = named[0]
    result = StripResult(allowance_mm=50.0, neutral=0.4)
    said = _keep_strip(tmp_path, leather, result)
    assert said.startswith(f"Kept for {name}: K = 0.4.")
    assert "builds started from now on" in said
    assert shelf_for(tmp_path).leather(leather).neutral == 0.4
    again = _keep_strip(tmp_path, leather, StripResult(allowance_mm=50.0, neutral=0.45))
    assert "before 0.4" in again


def test_what_is_no_measure_is_not_kept(tmp_path):
    with pytest.raises(ArmorplanError, match="no measure"):
        _keep_strip(tmp_path, "anything", StripResult(allowance_mm=None, neutral=None))
    assert list(tmp_path.iterdir()) == []
