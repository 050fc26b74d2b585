"""Pattern folders for the command line's tests: a sound sample, and ways to break it."""

import shutil
from collections.abc import Callable
from pathlib import Path

from armorplan.kernel.shipped import samples_folder

Break = Callable[[Path], object]


def copy_sample(into: Path, name: str = "elbow_cop") -> Path:
    """Copy a sample where a test may break it."""
    return Path(shutil.copytree(samples_folder() / name, into / name))


def _rewrite(name: str, old: str, new: str) -> Break:
    def change(folder: Path) -> None:
        file = folder / name
        text = file.read_text(encoding="utf-8")
        assert old in text, old
        file.write_text(text.replace(old, new, 1), encoding="utf-8")

    return change


def _cut_off(folder: Path) -> None:
    drawing = folder / "elbow_cop.svg"
    drawing.write_bytes(drawing.read_bytes()[: len(drawing.read_bytes()) // 2])


def _bomb(folder: Path) -> None:
    levels = "".join(f'<!ENTITY e{n} "{f"&e{n - 1};" * 10}">' for n in range(1, 10))
    head = f'<!DOCTYPE svg [<!ENTITY e0 "lol">{levels}]>'
    drawing = folder / "elbow_cop.svg"
    text = drawing.read_text(encoding="utf-8")
    start = text.index("<svg")
    bombed = text[:start] + head + text[start:].replace("</svg>", "<text>&e9;</text></svg>")
    drawing.write_text(bombed, encoding="utf-8")


def _binary(folder: Path) -> None:
    (folder / "pattern.toml").write_bytes(bytes(range(256)) * 40)


def _open_path(folder: Path) -> None:
    drawing = folder / "elbow_cop.svg"
    text = drawing.read_text(encoding="utf-8")
    at = text.index('id="boss"')
    start = text.rindex("<", 0, at)
    end = text.index(">", at)
    element = text[start : end + 1]
    # The last curve and the closing go: the outline ends several millimetres from its start.
    opened = element[: element.rindex(" C ")] + '"/>'
    drawing.write_text(text.replace(element, opened), encoding="utf-8")


BROKEN: dict[str, tuple[Break, int, str]] = {
    "no drawing": (lambda folder: (folder / "elbow_cop.svg").unlink(), 2, "elbow_cop.svg"),
    "no pattern file": (lambda folder: (folder / "pattern.toml").unlink(), 2, "pattern.toml"),
    "drawing cut off": (_cut_off, 1, "elbow_cop.svg"),
    "entity bomb": (_bomb, 1, "elbow_cop.svg"),
    "binary file": (_binary, 2, "pattern.toml"),
    "unknown id": (
        _rewrite(
            "pattern.toml", 'stack = ["middle_left_1", "left_1"]', 'stack = ["midle", "left_1"]'
        ),
        1,
        "midle",
    ),
    "open path": (_open_path, 1, "boss"),
    "wrong type": (
        _rewrite("pattern.toml", "thickness_mm = 2.8", 'thickness_mm = "thick"'),
        1,
        "thickness_mm",
    ),
    "missing hole": (_rewrite("elbow_cop.svg", 'id="left_1"', 'id="left_first"'), 1, "left_1"),
    "toml syntax": (_rewrite("pattern.toml", "[pattern]", "[pattern"), 1, "pattern.toml"),
}
"""By name: how to break the folder, the exit code, and what the message has to name."""
