"""What machines were set to, and how their cuts came out; rows are only added."""

from datetime import datetime

from armorplan.store.columns import Row, instant_text
from armorplan.store.tables import Tables
from armorplan.workshop.cut_settings import CutResult, CutSetting

_ADD = """
    INSERT INTO cut_settings
        (at, machine, leather, thickness_mm, words, passes, result, kerf_mm, note, who)
    VALUES
        (:at, :machine, :leather, :thickness_mm, :words, :passes, :result, :kerf_mm, :note, :who)
"""
_ALL = "SELECT * FROM cut_settings ORDER BY seq"


class CutLogFile:
    """Keeps the log of cuts; WorkshopError where the file cannot be read or written."""

    def __init__(self, tables: Tables) -> None:
        self._tables = tables

    def keep(self, setting: CutSetting) -> None:
        """Keep a trial for ever."""
        row = {
            "at": instant_text(setting.at),
            "machine": setting.machine,
            "leather": setting.leather,
            "thickness_mm": setting.thickness_mm,
            "words": setting.words,
            "passes": setting.passes,
            "result": setting.result.value,
            "kerf_mm": setting.kerf_mm,
            "note": setting.note,
            "who": setting.who,
        }
        self._tables.write((_ADD, row))

    def all(self) -> tuple[CutSetting, ...]:
        """Return every trial, oldest first."""
        return self._tables.read(_setting, _ALL, {})


def _setting(row: Row) -> CutSetting:
    return CutSetting(
        at=datetime.fromisoformat(row["at"]),
        machine=row["machine"],
        leather=row["leather"],
        thickness_mm=row["thickness_mm"],
        words=row["words"],
        passes=row["passes"],
        result=CutResult(row["result"]),
        kerf_mm=row["kerf_mm"],
        note=row["note"],
        who=row["who"],
    )
