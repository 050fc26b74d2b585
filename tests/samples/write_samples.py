"""Write the drawings of the samples: python tests/samples/write_samples.py"""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
if __name__ == "__main__":
    sys.path.insert(0, str(ROOT / "tests"))

from samples import (  # noqa: E402
    arm_harness_sample,
    collar_sample,
    elbow_cop_sample,
    three_lames_sample,
    unnamed_drawing,
)


def drawings() -> dict[str, str]:
    """Return the text of every drawing by its path below the project's root."""
    return {
        "sample_projects/arm_harness/arm_harness.svg": arm_harness_sample.drawing(),
        "sample_projects/elbow_cop/elbow_cop.svg": elbow_cop_sample.drawing(),
        "sample_projects/collar/collar.svg": collar_sample.drawing(),
        "sample_projects/three_lames/three_lames.svg": three_lames_sample.drawing(),
        "sample_projects/watch_parts/watch_parts.svg": unnamed_drawing.unnamed_svg(),
    }


if __name__ == "__main__":
    for name, text in drawings().items():
        (ROOT / name).write_text(text, encoding="utf-8", newline="\n")
