"""The worker process: models in on stdin, answers out on stdout, one JSON object a line.

In:  ``{"solve": number, "model": {…}}``, ``{"stop": number}``.
Out: ``{"ready": true}`` once OR-Tools is loaded, ``{"better": number, "answer": {…}}``,
``{"answered": number, "answer": {…}}``, ``{"refused": number, "text": …}``, and while anything is
asked ``{"alive": true}`` several times a second.

It ends when its stdin closes, which happens however its parent ends.
"""

import json
import os
import queue
import signal
import sys
import threading
import time
from contextlib import suppress
from typing import IO, Any

from armorplan.solving import cpsat
from armorplan.solving.pulse import BEAT_S
from armorplan.solving.wire import answer_to_wire, model_from_wire


class _Worker:
    """Reads on one thread, solves on the main one, and writes whole lines."""

    def __init__(self, source: IO[str], sink: IO[str]) -> None:
        self._source = source
        self._sink = sink
        self._writing = threading.Lock()
        self._jobs: queue.SimpleQueue[tuple[int, Any]] = queue.SimpleQueue()
        self._stops: dict[int, threading.Event] = {}

    def run(self) -> None:
        """Serve until stdin closes."""
        threading.Thread(target=self._read, daemon=True).start()
        threading.Thread(target=self._beat, daemon=True).start()
        cpsat.load()
        self._say({"ready": True})
        while True:
            self._solve(*self._jobs.get())

    def _read(self) -> None:
        for line in self._source:
            message = json.loads(line)
            if "solve" in message:
                number = message["solve"]
                self._stops[number] = threading.Event()
                self._jobs.put((number, message["model"]))
            elif message["stop"] in self._stops:
                self._stops[message["stop"]].set()
        # Nobody listens any more; a search in C++ would not notice an exception.
        os._exit(0)

    def _beat(self) -> None:
        with suppress(OSError):  # Nobody listens any more: the reading thread ends all.
            while True:
                time.sleep(BEAT_S)
                if self._stops:
                    self._say({"alive": True})

    def _solve(self, number: int, raw: Any) -> None:
        stop = self._stops[number]
        try:
            answer = cpsat.solve(
                model_from_wire(raw),
                stop,
                lambda better: self._say({"better": number, "answer": answer_to_wire(better)}),
            )
        except (KeyError, TypeError, ValueError) as why:
            self._say({"refused": number, "text": f"{type(why).__name__}: {why}"})
        else:
            self._say({"answered": number, "answer": answer_to_wire(answer)})
        finally:
            del self._stops[number]

    def _say(self, message: dict[str, Any]) -> None:
        with self._writing:
            self._sink.write(json.dumps(message) + "\n")
            self._sink.flush()


def main() -> None:
    """Keep a private stdout for answers, send anything the solver prints to stderr, and serve."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is the parent's to handle.
    private = os.dup(sys.stdout.fileno())
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    with os.fdopen(private, "w", encoding="utf-8") as sink:
        _Worker(sys.stdin, sink).run()


if __name__ == "__main__":
    main()
