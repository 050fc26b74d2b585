"""A tool's reach is a length, or it is not read."""

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import UnreadableError

TOOL = """[stake]
name = "Long stake"
serves = ["rivet"]
source = "common practice, no source"
"""


@pytest.mark.parametrize("reach", ["-1", "nan", "inf", "-inf", '"far"'])
@pytest.mark.parametrize("key", ["reach_mm", "opening_mm"])
def test_a_reach_that_is_no_length_is_refused(tmp_path, key, reach):
    (tmp_path / "tools.toml").write_text(f"{TOOL}{key} = {reach}\n", encoding="utf-8")
    with pytest.raises(UnreadableError) as caught:
        read_shelf(own=tmp_path)
    (found,) = caught.value.findings
    assert key in found.text
    assert "number" in f"{found.text} {found.remedy}"


def test_a_tool_may_say_that_it_works_from_outside(tmp_path):
    (tmp_path / "tools.toml").write_text(f"{TOOL}outside = true\n", encoding="utf-8")
    tools = {tool.id: tool for tool in read_shelf(own=tmp_path).tools}
    assert tools["stake"].outside
    assert tools["stake"].reach_mm is None
    assert tools["lacing_needle"].outside
    assert not tools["drill"].outside
