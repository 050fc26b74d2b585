"""The worker process as seen by its parent: lines in, messages out, and a sure end."""

import json
import os
import queue
import subprocess
import sys
import threading
from collections import deque
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

from armorplan.solving.model import Answer, Model
from armorplan.solving.wire import answer_from_wire, model_to_wire

_SOURCE = str(Path(__file__).resolve().parents[2])
_KEPT_LINES = 5
_LEAVING_S = 0.5
"""A worker whose stdin closed leaves within this, or is killed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Message:
    """One thing the worker said of solve ``number``: an answer, final or not, or a refusal."""

    number: int
    answer: Answer | None = None
    final: bool = True
    refusal: str = ""


class WorkerProcess:
    """One run of the worker. Writing and reading have threads of their own, so nothing here waits.

    A stopped or hung worker fills its pipes; only a thread that may be left waiting can write.
    """

    def __init__(self) -> None:
        self.ready = False
        """The solver is loaded."""
        self.gone = False
        """Its stdout closed: it has ended, or is about to."""
        self.words = 0
        """How many lines it said so far, those counted that only say that it lives."""
        self._messages: queue.SimpleQueue[Message | None] = queue.SimpleQueue()
        self._lines: queue.SimpleQueue[str | None] = queue.SimpleQueue()
        self._stderr: deque[str] = deque(maxlen=_KEPT_LINES)
        # -P keeps a folder the maker happens to stand in from supplying modules.
        self._process = subprocess.Popen(
            [sys.executable, "-P", "-m", "armorplan.solving.worker"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            encoding="utf-8",
            errors="replace",
            env={**os.environ, "PYTHONPATH": _with_source(os.environ.get("PYTHONPATH"))},
        )
        pipes = (
            (self._write, self._process.stdin),
            (self._read, self._process.stdout),
            (self._keep_words, self._process.stderr),
        )
        self._threads = [threading.Thread(target=t, args=(p,), daemon=True) for t, p in pipes]
        for thread in self._threads:
            thread.start()

    @property
    def alive(self) -> bool:
        """Whether the process still runs."""
        return self._process.poll() is None

    @property
    def pid(self) -> int:
        """The process id."""
        return self._process.pid

    def send_model(self, number: int, model: Model) -> None:
        """Ask for the solve ``number``."""
        self._lines.put(json.dumps({"solve": number, "model": model_to_wire(model)}))

    def send_stop(self, number: int) -> None:
        """Ask the solve ``number`` to stop."""
        self._lines.put(json.dumps({"stop": number}))

    def next_message(self, seconds: float) -> Message | None:
        """Return the next message, or ``None`` if none came in time or the worker is gone."""
        with suppress(queue.Empty):
            message = self._messages.get(timeout=seconds)
            self.gone = self.gone or message is None
            return message
        return None

    def last_words(self) -> str:
        """Return how the process ended and the last thing it wrote to stderr."""
        with suppress(subprocess.TimeoutExpired):
            self._process.wait(_LEAVING_S)
        said = self._stderr[-1].strip() if self._stderr else "it said nothing"
        return f"exit code {self._process.poll()}, {said}"

    def end(self, *, at_once: bool = False) -> None:
        """Close its stdin, kill it if that is not enough, and wait until nothing of it is left.

        ``at_once`` kills it without waiting for it to leave: it writes nothing but answers.
        """
        self._lines.put(None)
        if at_once:
            self._process.kill()
        try:
            self._process.wait(_LEAVING_S)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()
        for thread in self._threads:
            thread.join()

    def _write(self, pipe: IO[str]) -> None:
        with suppress(OSError), pipe:
            while (line := self._lines.get()) is not None:
                pipe.write(line + "\n")
                pipe.flush()

    def _keep_words(self, pipe: IO[str]) -> None:
        with pipe:
            self._stderr.extend(pipe)

    def _read(self, pipe: IO[str]) -> None:
        with pipe:
            for line in pipe:
                self._hear(line)
        self._messages.put(None)

    def _hear(self, line: str) -> None:
        try:
            message = json.loads(line)
        except ValueError:  # Half a line: it died while writing.
            return
        if "ready" in message:
            self.ready = True
        self.words += 1
        if "ready" in message or "alive" in message:
            return
        if "refused" in message:
            self._messages.put(Message(number=message["refused"], refusal=message["text"]))
        else:
            self._messages.put(_answer_in(message))


def _answer_in(message: dict[str, Any]) -> Message:
    final = "answered" in message
    number = message["answered" if final else "better"]
    return Message(number=number, answer=answer_from_wire(message["answer"]), final=final)


def _with_source(path: str | None) -> str:
    return os.pathsep.join([_SOURCE, path] if path else [_SOURCE])
