"""Plans side by side as cells of a table, and one of them build by build."""

from datetime import datetime, tzinfo

from PySide6.QtCore import QCoreApplication

from armorplan.app.mends import MendRow
from armorplan.app.what_if_rows import SideRow
from armorplan.desktop.twin_model import TwinRow
from armorplan.desktop.wording import clock_text
from armorplan.kernel.units import span_words


def _tr(text: str) -> str:
    return QCoreApplication.translate("side_words", text)


def side_headings() -> tuple[str, ...]:
    """Return what stands over the columns."""
    return (
        _tr("What if"),
        _tr("Finished"),
        _tr("Late"),
        _tr("Beside the plan"),
        _tr("How sure"),
    )


def twin_of(row: SideRow | MendRow, now: datetime, zone: tzinfo) -> TwinRow:
    """Return a row of the table: what is spoken says all of it."""
    finish = clock_text(row.finish_at, now, zone) if row.finish_at else _tr("no plan")
    if isinstance(row, MendRow):
        cells = (row.title, finish, _late_of(row), row.price, f"{_deed(row.deed)}. {row.where}")
    else:
        late = span_words(row.late_min) if row.late_min else _tr("nothing late")
        late = late if row.finish_at else ""
        sure = row.sureness if row.is_last else _tr("A first plan; a better one is sought …")
        title = f"{row.title[:1].upper()}{row.title[1:]}"
        cells = (title, finish, late, row.against, sure if row.finish_at else "")
    spoken = ". ".join(cell.rstrip(".") for cell in cells if cell)
    return TwinRow(key=row.key, cells=cells, spoken=f"{spoken}.")


def _late_of(row: MendRow) -> str:
    if row.finish_at is None:
        return ""
    return ", ".join(f"{title} {span_words(m)}" for title, m in row.late) or _tr("nothing late")


def _deed(deed: str) -> str:
    said = {"soften": _tr("to soften"), "move": _tr("to move"), "add": _tr("to add")}
    return ", ".join(said.get(one, one) for one in deed.split(", "))


def builds_words(row: SideRow | MendRow, now: datetime, zone: tzinfo) -> str:
    """Return one plan build by build; a way out in its own words."""
    if isinstance(row, MendRow):
        return f"{row.title}. {row.price}\n{row.where}"
    lines = []
    for build in row.builds:
        ends = clock_text(build.end_at, now, zone)
        late = _tr("no due date")
        if build.late_min is not None:
            late = _tr("{0} late").format(span_words(build.late_min))
            late = late if build.late_min else _tr("in time")
        lines.append(_tr("{0}: {1}, {2}").format(build.title, ends, late))
    return "\n".join([*lines, row.sureness]) if lines else row.against
