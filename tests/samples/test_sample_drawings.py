import pytest
from samples.write_samples import ROOT, drawings


@pytest.mark.parametrize("name", sorted(drawings()))
def test_the_drawing_on_disk_is_what_the_script_writes(name):
    written = (ROOT / name).read_text(encoding="utf-8")
    assert written == drawings()[name], "run: python tests/samples/write_samples.py"
