"""A clock that stands still until a test moves it."""

from datetime import UTC, datetime, timedelta

DEFAULT_START_AT = datetime(2027, 3, 1, 9, 0, tzinfo=UTC)


class FakeClock:
    """Both clocks of a machine: the wall's, and the one that counts from its start."""

    def __init__(self, at: datetime = DEFAULT_START_AT, *, boot_s: float = 1000.0) -> None:
        self._at = at
        self._boot_s = boot_s
        self._boot = 1

    def now(self) -> datetime:
        return self._at

    def boot_id(self) -> str:
        return f"boot-{self._boot}"

    def boot_seconds(self) -> float:
        return self._boot_s

    def set_now(self, at: datetime) -> None:
        """Set the wall clock alone."""
        self._at = at

    def advance(self, seconds: float) -> None:
        """Let time pass, awake or suspended: both clocks count it."""
        self._at += timedelta(seconds=seconds)
        self._boot_s += seconds

    def set_back(self, seconds: float) -> None:
        """Set the wall clock back; the boot clock does not notice."""
        self._at -= timedelta(seconds=seconds)

    def reboot(self, *, off_s: float = 0.0) -> None:
        """Restart the machine, off for a while: the wall clock goes on, the boot clock anew."""
        self._boot += 1
        self._boot_s = 5.0
        self._at += timedelta(seconds=off_s)
