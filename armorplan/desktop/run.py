"""Opens the window and runs it to its end."""

import sys
from collections.abc import Callable
from pathlib import Path

from armorplan.app.session_protocol import BenchSession
from armorplan.app.wishes import Wishes
from armorplan.desktop.air_desk import AirBench
from armorplan.desktop.beginning import Beginner, Later
from armorplan.desktop.bridge import Bridge, PinBench, PrinterBench
from armorplan.desktop.draft_desk import DraftReader
from armorplan.desktop.errors import FaultTeller, keep_log, log_file
from armorplan.desktop.opening import Reader, Resumer
from armorplan.desktop.planning import Planner
from armorplan.desktop.settings import Settings, settings_file
from armorplan.desktop.strip_fields import StripBench
from armorplan.desktop.trial_desk import TrialBench
from armorplan.desktop.widgets.application import make_application
from armorplan.desktop.widgets.main_window import MainWindow, Means
from armorplan.desktop.widgets.workshop_keeping import StoreBench
from armorplan.kernel.clock import Clock
from armorplan.workshop.shelf import Shelf


def run_window(  # noqa: PLR0913 - what the command line alone can make
    session: BenchSession,
    reader: Reader,
    *,
    planner: Planner,
    clock: Clock,
    samples: tuple[Path, ...] = (),
    drafts: DraftReader | None = None,
    strips: StripBench | None = None,
    trials: TrialBench | None = None,
    airs: AirBench | None = None,
    resumer: Resumer | None = None,
    wishes: Wishes | None = None,
    later: Later | None = None,
    store: StoreBench | None = None,
    pins: PinBench | None = None,
    printers: PrinterBench | None = None,
    shelf: Callable[[], Shelf] | None = None,
) -> int:
    """Show the window on a build and return the exit code when it is closed.

    Ask ``display.why_no_window`` first: where no window can open, Qt ends the process.

    Args:
        session: the build to open with.
        reader: reads another pattern folder; see ``opening.Reader``.
        planner: seeks plans off the window's thread.
        clock: tells instants.
        samples: folders of the shipped patterns and shops.
        drafts: reads the pattern of a build as a draft, to be edited.
        strips: names the leathers, and keeps what a test strip told of one.
        trials: tells what a tool that was tried teaches, keeps it, and goes on with the build.
        airs: reads and keeps the shop's air, and goes on with the build in it.
        resumer: opens another build of the workshop by its id.
        wishes: answers what is asked of the weeks ahead.
        later: begins the other builds of a shop once the window is there.
        store: the workshop file itself: whose turn it is to write, and its backups.
        pins: keeps how many pins the maker has.
        printers: keeps how the maker's printers draw.
        shelf: reads the catalogues, in any thread.
    """
    settings = Settings(settings_file())
    log_path = log_file()
    keep_log(log_path)
    app = make_application(settings)
    bridge = Bridge(session, clock)
    bridge.pins = pins
    bridge.printers = printers
    teller = FaultTeller(log_path)
    teller.told.connect(bridge.said)
    teller.install()
    means = Means(
        settings,
        planner,
        reader,
        samples,
        log_path,
        drafts,
        strips,
        trials,
        airs,
        resumer,
        wishes,
        store,
        shelf,
    )
    window = MainWindow(bridge, means)
    window.show()
    if settings.notice:
        bridge.said.emit(settings.notice)
    window.timing.missed.tell()
    window.keeping.tell_at_start()
    window.desk.plan()
    beginner = Beginner(bridge, later, window) if later else None
    if beginner is not None:
        beginner.begin()
    code = app.exec()
    if beginner is not None:
        beginner.close()
    farewell = window.timing.farewell()
    if farewell:
        sys.stdout.write(f"{farewell}\n")
    return code
