"""Where the workshop is too damaged to open: its backups, in a window of their own."""

from datetime import tzinfo

from armorplan.desktop.restore_desk import BackupBench, RestoreDesk
from armorplan.desktop.settings import Settings, settings_file
from armorplan.desktop.widgets.application import make_application
from armorplan.desktop.widgets.restore_page import RestorePage


def offer_backups(bench: BackupBench, why: str, zone: tzinfo) -> bool:
    """Show why the workshop cannot be opened, and its backups; tell whether one was put in place."""
    app = make_application(Settings(settings_file()))
    desk = RestoreDesk(bench, zone)
    page = RestorePage(desk, why=why)
    done: list[str] = []
    desk.restored.connect(done.append)
    desk.restored.connect(page.close)
    page.show()
    app.exec()
    desk.close()
    return bool(done)
