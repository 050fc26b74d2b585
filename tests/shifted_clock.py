"""The machine's own clock, half an hour on: what was recorded by the real one lies that far back."""

from datetime import datetime, timedelta

from armorplan.kernel.clock import SystemClock

SHIFT = timedelta(minutes=30)


class ShiftedClock(SystemClock):
    """Both clocks of the machine as they will be in half an hour."""

    def now(self) -> datetime:
        return super().now() + SHIFT

    def boot_seconds(self) -> float:
        return super().boot_seconds() + SHIFT.total_seconds()
