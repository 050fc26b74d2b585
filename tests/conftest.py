"""The suite draws the same examples on every run; long runs (``-m long``) draw new ones.

No example has a time limit of its own: on a busy machine a plain sum may take a fifth of a second.
"""

from collections.abc import Iterator

import pytest
from hypothesis import settings

settings.register_profile("suite", derandomize=True, deadline=None, max_examples=40)
settings.register_profile("long", deadline=None, max_examples=100)


def pytest_configure(config: pytest.Config) -> None:
    long_run = "long" in config.getoption("markexpr") and "not long" not in (
        config.getoption("markexpr")
    )
    settings.load_profile("long" if long_run else "suite")


@pytest.fixture(scope="session", autouse=True)
def nobodys_data_folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Let no test read the workshop and the catalogues of whoever runs it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_DATA_HOME", str(tmp_path_factory.mktemp("nobody")))
        yield
