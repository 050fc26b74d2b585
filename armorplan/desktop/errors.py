"""Faults of the program itself: written to a log file, and told in one sentence.

Nothing that was recorded is lost by such a fault: the ledger is on disk before a key press ends.
"""

import logging
import sys
import threading
from logging.handlers import RotatingFileHandler
from pathlib import Path
from types import TracebackType

from platformdirs import user_log_path
from PySide6.QtCore import QObject, Signal

LOG_BYTES = 500_000
_LOG = logging.getLogger("armorplan")


def log_file() -> Path:
    """Return where faults are written."""
    return user_log_path("armorplan", appauthor=False) / "armorplan.log"


def keep_log(path: Path) -> logging.Handler | None:
    """Write warnings and faults to a file that stays small; ``None`` if it cannot be written."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handler = RotatingFileHandler(path, maxBytes=LOG_BYTES, backupCount=1, encoding="utf-8")
    except OSError:
        return None
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(name)s: %(message)s"))
    _LOG.addHandler(handler)
    return handler


class FaultTeller(QObject):
    """Catches what nothing else caught; ``told`` carries the sentence for the person.

    The signal may be emitted from any thread: a receiver in the window hears it in its own.
    """

    told = Signal(str)

    def __init__(self, log_path: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._log_path = log_path

    def install(self) -> None:
        """Become the process's last resort, in the main thread and in others."""
        sys.excepthook = self.catch
        threading.excepthook = self._catch_in_thread

    def _catch_in_thread(self, args: threading.ExceptHookArgs) -> None:
        if args.exc_value is not None:
            self.catch(args.exc_type, args.exc_value, args.exc_traceback)

    def catch(
        self,
        kind: type[BaseException],
        error: BaseException,
        trace: TracebackType | None,
    ) -> None:
        """Log a fault and tell it in one sentence."""
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, error, trace)
            return
        _LOG.error("Unexpected fault", exc_info=(kind, error, trace))
        sys.__excepthook__(kind, error, trace)
        self.told.emit(
            self.tr("Something went wrong inside the program and was written to {0}; ").format(
                self._log_path
            )
            + self.tr("what you recorded is safe.")
        )
