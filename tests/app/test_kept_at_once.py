"""What several programs keep at once all stands in the maker's own catalogue, or is refused."""

import subprocess
import sys
import tomllib
from datetime import date

import pytest

from armorplan.app.kept_reach import keep_reach
from armorplan.app.learned_reach import LearnedReach
from armorplan.app.own_catalogue import keep_values
from armorplan.files.catalogue import TOOLS_FILE, read_shelf
from armorplan.kernel.errors import ArmorplanError

_KEEP = """
import sys
from datetime import date
from pathlib import Path
from armorplan.app.kept_reach import keep_reach
from armorplan.app.learned_reach import LearnedReach
from armorplan.kernel.errors import ArmorplanError

folder, tool, was, becomes = Path(sys.argv[1]), sys.argv[2], float(sys.argv[3]), float(sys.argv[4])
learned = LearnedReach(
    joint="j", did_reach=True, tool=tool, made=(), least_mm=0, most_mm=0,
    reach_mm=was, becomes_mm=becomes, held="", follows="",
)
print("ready", flush=True)
sys.stdin.readline()
try:
    print("kept", keep_reach(folder, learned, date(2026, 11, 29)).value_mm)
except ArmorplanError as error:
    print("refused", error)
"""


def keep_at_once(folder, wanted):
    """Keep reaches, each (tool, from, to), from a program of its own, all at once; what each said."""
    running = [
        subprocess.Popen(
            [sys.executable, "-c", _KEEP, str(folder), tool, str(was), str(to)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        for tool, was, to in wanted
    ]
    for each in running:
        assert each.stdout.readline() == "ready\n"
    for each in running:
        each.stdin.write("\n")
        each.stdin.flush()
    return [each.communicate(timeout=120)[0].strip() for each in running]


def reach_of(tool, folder=None):
    return next(t.reach_mm for t in read_shelf(own=folder).tools if t.id == tool)


@pytest.mark.parametrize("times", [3, pytest.param(6, marks=pytest.mark.long)])
def test_of_one_tool_kept_at_once_one_is_kept_and_the_others_are_told(tmp_path, times):
    was = reach_of("horn_anvil")
    said = keep_at_once(tmp_path, [("horn_anvil", was, was + 1 + at) for at in range(times)])
    kept = [line for line in said if line.startswith("kept")]
    assert len(kept) == 1
    assert kept == [f"kept {reach_of('horn_anvil', tmp_path)}"]
    refused = [line for line in said if line.startswith("refused")]
    assert len(refused) == times - 1
    assert all("no longer what this was reckoned with" in line for line in refused)


@pytest.mark.parametrize("count", [2, pytest.param(4, marks=pytest.mark.long)])
def test_different_tools_kept_at_once_are_all_kept(tmp_path, count):
    tools = sorted(t.id for t in read_shelf().tools if t.reach_mm)[:count]
    wanted = [(tool, reach_of(tool), reach_of(tool) + 5) for tool in tools]
    said = keep_at_once(tmp_path, wanted)
    assert all(line.startswith("kept") for line in said)
    held = tomllib.loads((tmp_path / TOOLS_FILE).read_text(encoding="utf-8"))
    assert {tool: held[tool]["reach_mm"] for tool in tools} == {t: to for t, _, to in wanted}
    assert [path.name for path in tmp_path.iterdir()] == [TOOLS_FILE]


def test_a_refusal_speaks_of_no_window_and_no_copy(tmp_path):
    keep_values(tmp_path, TOOLS_FILE, "horn_anvil", {"reach_mm": 251.5})
    (tmp_path / TOOLS_FILE).chmod(0o444)
    learned = LearnedReach(
        joint="j",
        did_reach=True,
        tool="horn_anvil",
        made=(),
        least_mm=0,
        most_mm=0,
        reach_mm=251.5,
        becomes_mm=260.0,
        held="",
        follows="",
    )
    with pytest.raises(ArmorplanError) as told:
        keep_reach(tmp_path, learned, date(2026, 11, 29))
    assert "may only be read" in str(told.value)
    assert "Nothing was kept" in str(told.value)
    assert "window" not in str(told.value)
    assert "copy" not in str(told.value)
    assert reach_of("horn_anvil", tmp_path) == 251.5
