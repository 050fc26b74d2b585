"""Faults planted into a sample: its text and drawing changed, written to a folder and read again."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from pathlib import Path

from samples.shapes import number

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.checking import shape_findings
from armorplan.geometry.gathering import measures
from armorplan.geometry.measures import Measure
from armorplan.kernel.findings import Finding
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.pattern import Pattern

SHELF = read_shelf()


@dataclass(frozen=True)
class Work:
    """The text and the drawing of a pattern, to be changed before it is written."""

    text: str
    svg: str
    drawing: str = field(default="arm_harness.svg", kw_only=True)

    def moved(self, hole: str, *, dx: float = 0.0, dy: float = 0.0) -> Work:
        """Move a hole by millimetres, right and down the page."""

        def shifted(found: re.Match[str]) -> str:
            x, y = float(found[2]) + dx, float(found[4]) + dy
            return f"{found[1]}{number(x)}{found[3]}{number(y)}{found[5]}"

        text, count = re.subn(
            rf'(<circle id="{hole}" cx=")([-.\d]+)(" cy=")([-.\d]+)(")', shifted, self.svg
        )
        assert count == 1, hole
        return replace(self, svg=text)

    def swapped(self, one: str, other: str) -> Work:
        """Give the drawn shapes of two parts, and all that is drawn in them, each other's names."""
        svg = self.svg.replace(f'id="{one}', 'id="\0').replace(f'id="{other}', f'id="{one}')
        return replace(self, svg=svg.replace('id="\0', f'id="{other}'))

    def renumbered(self, row: str, count: int) -> Work:
        """Count a row of holes from its other end."""
        svg = self.svg
        for n in range(1, count + 1):
            svg = svg.replace(f'id="{row}_{n}"', f'id="\0{count + 1 - n}"')
        return replace(self, svg=svg.replace('id="\0', f'id="{row}_'))

    def mirrored(self, part: str, *, about_x: float) -> Work:
        """Turn a part over about an upright line of the drawing, with its holes."""
        lines = self.svg.splitlines(keepends=True)
        (at,) = [n for n, line in enumerate(lines) if f'<path id="{part}"' in line]
        end = at + 1
        while "<path" not in lines[end] and "</g>" not in lines[end]:
            end += 1
        turn = f'    <g transform="matrix(-1 0 0 1 {number(2 * about_x)} 0)">\n'
        return replace(
            self, svg="".join([*lines[:at], turn, *lines[at:end], "    </g>\n", *lines[end:]])
        )

    def worded(self, before: str, after: str) -> Work:
        """Change a piece of the text that stands in it once."""
        assert self.text.count(before) == 1, before
        return replace(self, text=self.text.replace(before, after))

    def read(self, folder: Path) -> Found:
        """Write it to a folder and read it again, the way every pattern is read."""
        folder.joinpath("pattern.toml").write_text(self.text, encoding="utf-8")
        folder.joinpath(self.drawing).write_text(self.svg, encoding="utf-8")
        reading = read_pattern(read_folder(folder), SHELF)
        assert reading.findings == (), reading.findings
        assert reading.pattern is not None
        return Found(reading.pattern)


@dataclass(frozen=True)
class Found:
    """What the shapes of a pattern tell."""

    pattern: Pattern

    @property
    def findings(self) -> tuple[Finding, ...]:
        return shape_findings(self.pattern, SHELF)

    @property
    def codes(self) -> list[str]:
        return [finding.code for finding in self.findings]

    def only(self, code: str) -> Finding:
        """Return the one finding there is, and hold that there is no other."""
        (finding,) = self.findings
        assert finding.code == code, finding
        return finding

    def measures(self) -> tuple[Measure, ...]:
        return measures(self.pattern, SHELF)

    def measure(self, part_of_id: str) -> Measure:
        """Return the one measure whose id holds these words."""
        (found,) = [each for each in self.measures() if part_of_id in each.id]
        return found


def arm_harness() -> Work:
    """Return the arm harness as it is shipped."""
    folder = samples_folder() / "arm_harness"
    return Work(
        (folder / "pattern.toml").read_text(encoding="utf-8"),
        (folder / "arm_harness.svg").read_text(encoding="utf-8"),
    )
