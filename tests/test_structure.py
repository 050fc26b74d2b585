"""What the linters do not see: file lengths, the top level, nothing unfinished, no hosts."""

import re
import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
SOURCES = sorted((ROOT / "armorplan").rglob("*.py"))
LONGEST_FILE = 300
TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "armorplan",
    "resources",
    "tests",
    "sample_projects",
    "LICENSE",
}


def tracked() -> list[str]:
    listed = subprocess.run(
        ["git", "ls-files"],  # noqa: S607
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    return listed.stdout.splitlines()


def test_no_file_is_too_long():
    long = {p.name: n for p in SOURCES if (n := len(p.read_text().splitlines())) > LONGEST_FILE}
    assert not long


def test_every_package_says_what_lives_there():
    for init in (p for p in SOURCES if p.name == "__init__.py"):
        assert init.read_text().startswith('"""'), init


def test_nothing_unfinished_is_left():
    unfinished = re.compile(r"\b(TODO|FIXME|XXX|NotImplementedError|[Pp]laceholder)\b")
    marked = {p.name for p in SOURCES if unfinished.search(p.read_text())}
    # A text field's greyed prompt is called a placeholder by Qt itself.
    qt_prompts = {p for p in marked if "setPlaceholderText" in _source(p)}
    assert marked <= qt_prompts


def _source(name: str) -> str:
    return next(p for p in SOURCES if p.name == name).read_text()


def test_only_the_agreed_top_level():
    top = {Path(name).parts[0] for name in tracked()}
    assert {name for name in top if not name.startswith(".")} <= TOP_LEVEL


def test_no_package_host_is_named():
    # Written in two halves, so that this file does not find itself.
    hosts = [
        a + b for a, b in (("pypi.", "org"), ("pythonhosted.", "org"), ("deb.debian.", "org"))
    ]
    texts = {n: (ROOT / n).read_bytes().decode("utf-8", "ignore") for n in tracked()}
    assert not [name for name, text in texts.items() for host in hosts if host in text]


def test_no_lock_file():
    locks = {"uv.lock", "poetry.lock", "package-lock.json", "Pipfile.lock"}
    assert not [name for name in tracked() if Path(name).name in locks]
