"""A shop file spoilt anywhere is read or refused with its faults, each with a line; never a traceback."""

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Severity
from armorplan.kernel.shipped import samples_folder

WEEK = (samples_folder() / "lantern_week" / "shop.toml").read_text(encoding="utf-8")
LINES = [line for line in WEEK.splitlines() if line and not line.startswith("#")]
VALUES = (
    "0", "-1", "1e400", "nan", '""', '"x"', "[]", "{}", "true", "2026-02-30", "0001-01-01",
    '"9999-12-31 23:59"', "25:00:00", "[[1]]", '["cut", "cut"]', '{ day = "mon" }', "1" * 400,
    '[{ day = 2026-12-08, from = "09:00" }]', '"Europe"', "[{ from = 2027-03-28, to = 1 }]",
)  # fmt: skip


@st.composite
def spoilt(draw):
    """A shop file with one to three lines cut out, doubled, or of another value."""
    lines = list(LINES)
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(0, len(lines) - 1))
        how = draw(st.sampled_from(("out", "twice", "value", "part", "key")))
        if how == "out":
            del lines[at]
        elif how == "twice":
            lines.insert(at, lines[at])
        elif how == "value":
            lines[at] = re.sub(r"=.*", lambda _: f"= {draw(st.sampled_from(VALUES))}", lines[at])
        elif how == "part":
            part = draw(st.sampled_from(VALUES))
            lines[at] = re.sub(r'"[^"]*"|\d+', lambda _, part=part: part, lines[at], count=1)
        else:
            lines[at] = re.sub(r"^[\w.\[\]]+", "harbour", lines[at])
    return "\n".join(lines)


@settings(max_examples=120, deadline=None, derandomize=True)
@given(text=spoilt())
def test_a_spoilt_shop_file_tells_its_faults(text, tmp_path_factory):
    path = tmp_path_factory.getbasetemp() / "spoilt_shop.toml"
    path.write_text(text, encoding="utf-8")
    try:
        found = read_shop_file(path)
    except UnreadableError as error:
        told = [f for f in error.findings if f.severity is Severity.ERROR]
        assert told
        for finding in told:
            assert finding.place is not None
            assert finding.place.file == path.name
            assert finding.text.strip()
            assert finding.remedy.strip()
    else:
        assert found.shop.people
        assert all(order.id for order in found.orders)
