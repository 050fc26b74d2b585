"""Where the workshop file lies."""

import subprocess
import sys

from platformdirs import user_data_path

from armorplan.store.places import default_workshop_path


def test_the_workshop_lies_in_the_users_data_folder(monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    path = default_workshop_path()
    assert path == user_data_path("armorplan", appauthor=False) / "workshop.sqlite"
    assert not path.exists()


def test_opening_a_store_does_not_load_pandas_and_leaves_it_loadable():
    script = (
        "import sys, armorplan.store.workshop_file;"
        "assert 'pandas' not in sys.modules, 'loaded';"
        "import importlib.util;"
        "importlib.util.find_spec('pandas')"
    )
    answer = subprocess.run([sys.executable, "-c", script], check=False, timeout=60)
    assert answer.returncode == 0
