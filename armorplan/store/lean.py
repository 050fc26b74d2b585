"""sqlite-utils without pandas, the only import of it.

WORKAROUND: sqlite_utils.db imports pandas wherever it is installed, and OR-Tools brings it. We
use none of it, and it takes longer to load than everything else a window needs to open a file.
A ``None`` among the loaded modules makes that import fail, which sqlite-utils allows for.
"""

import sys

_HIDE = "pandas" not in sys.modules
if _HIDE:
    sys.modules["pandas"] = None  # type: ignore[assignment]
try:
    from sqlite_utils import Database, Migrations
finally:
    if _HIDE:
        del sys.modules["pandas"]

__all__ = ["Database", "Migrations"]
