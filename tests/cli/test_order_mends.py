"""An order with the planted fault 'strap after closing': told, and mended as a maker would."""

import json
import re
from pathlib import Path

from armorplan.cli.program import run

GAUNTLET = Path(__file__).parents[1] / "patterns" / "gauntlet"
SHORT = ("horn_anvil", "held_block", "rivet_press", "rivet_setter")


def bare(folder):
    """Write the gauntlet without its badge, and a shelf whose tools get in 40 mm."""
    folder.mkdir()
    text = (GAUNTLET / "pattern.toml").read_text(encoding="utf-8")
    tables = re.split(r"(?m)^(?=\[)", text)
    kept = (table for table in tables if "badge" not in table.partition("]")[0])
    (folder / "pattern.toml").write_text("".join(kept), encoding="utf-8")
    (folder / "d.svg").write_bytes((GAUNTLET / "d.svg").read_bytes())
    shelf = folder.parent / "shelf"
    shelf.mkdir()
    tools = "".join(f"[{each}]\nreach_mm = 40.0\n" for each in SHORT)
    (shelf / "tools.toml").write_text(tools, encoding="utf-8")
    return ["order", str(folder), "--catalogues", str(shelf)]


def test_a_strap_after_closing_goes_before_the_row_is_begun_and_tears_it_nowhere(tmp_path, capsys):
    asked = bare(tmp_path / "cuff")
    assert run([*asked, "--json"]) == 0
    steps = [step["id"] for step in json.loads(capsys.readouterr().out)["steps"]]
    late = [step for step in steps if step.rpartition("/")[2].startswith("grip_")]
    row = [step for step in steps if step.rpartition("/")[2].startswith("close_")]
    rest = [step for step in steps if step not in late]
    at = rest.index(row[-1]) + 1
    file = tmp_path / "order.txt"
    file.write_text("\n".join((*rest[:at], *late, *rest[at:])), encoding="utf-8")
    assert run([*asked, "--judge", str(file)]) == 1
    fault, lead, move = capsys.readouterr().out.splitlines()
    assert "no tool gets to 'Rivet cuff and inner strap, " in fault
    assert lead == "To mend it:"
    assert "inner strap, 1 of 2' to 'Rivet cuff and inner strap, 2 of 2' go before the row" in move
    assert re.search(r"is begun with 'Rivet closing row, (1|12) of 12'$", move)
