"""Disks that count the calls made to them, so that each can be stopped or failed."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable
from pathlib import Path
from typing import Any

from authoring.files.filesystem import FileSystem

CALLS = (
    "open_read",
    "create",
    "set_mode",
    "entry_of",
    "read",
    "write",
    "sync",
    "close",
    "entry",
    "names",
    "replace",
    "remove",
    "make_folder",
    "sync_folder",
    "resolve",
    "may_write",
)

Real = Callable[..., Any]
Watcher = Callable[[int, str, Real, tuple[Any, ...]], Any]


def straight_on(number: int, name: str, real: Real, arguments: tuple[Any, ...]) -> Any:
    return real(*arguments)


class Stepped(FileSystem):
    """Passes every call to ``disk`` through ``watcher``, numbered from 1."""

    def __init__(self, disk: FileSystem, watcher: Watcher = straight_on) -> None:
        self.disk = disk
        self.watcher = watcher
        self.count = 0
        for name in CALLS:
            setattr(self, name, self._through(name, getattr(disk, name)))

    def _through(self, name: str, real: Real) -> Real:
        def call(*arguments: Any) -> Any:
            self.count += 1
            return self.watcher(self.count, name, real, arguments)

        return call

    def elapsed_s(self) -> float:
        return self.disk.elapsed_s()

    def now_s(self) -> float:
        return self.disk.now_s()

    def pause(self, seconds: float) -> None:
        self.disk.pause(seconds)


class Unflushed(FileSystem):
    """The real disk without its flushes, which no killed process can miss."""

    def sync(self, descriptor: int) -> None:
        pass

    def sync_folder(self, folder: Path) -> None:
        folder.stat()  # still an error where there is no such folder


class Hurried(Unflushed):
    """On which waiting takes no time."""

    def __init__(self) -> None:
        self.seconds = 0.0

    def elapsed_s(self) -> float:
        self.seconds += 1e-6
        return self.seconds

    def pause(self, seconds: float) -> None:
        self.seconds += seconds


class Fault:
    """Fails the ``at``-th call, and with ``lasting`` every later one too.

    ``error`` None makes a write take only half of the data, which is no failure.
    """

    def __init__(self, at: int, error: BaseException | None, *, lasting: bool = False) -> None:
        self.at = at
        self.error = error
        self.lasting = lasting
        self.struck: str | None = None

    def __call__(self, number: int, name: str, real: Real, arguments: tuple[Any, ...]) -> Any:
        if number < self.at or (number > self.at and not self.lasting):
            return real(*arguments)
        self.struck = self.struck or name
        if self.error is not None:
            if name == "close":  # a failed close still gives the descriptor back
                real(*arguments)
            raise self.error
        if name == "write" and len(arguments[1]) > 1:
            descriptor, data = arguments
            return real(descriptor, data[: len(data) // 2])
        return real(*arguments)


class Kill:
    """Kills this process at the ``at``-th call: before it, after it, or inside a write."""

    def __init__(self, at: int, when: str) -> None:
        self.at = at
        self.when = when

    def __call__(self, number: int, name: str, real: Real, arguments: tuple[Any, ...]) -> Any:
        if number != self.at:
            return real(*arguments)
        try:
            if self.when == "after":
                real(*arguments)
            elif self.when == "inside" and name == "write":
                descriptor, data = arguments
                real(descriptor, data[: len(data) // 2])
        finally:
            os.kill(os.getpid(), signal.SIGKILL)
        raise AssertionError("still alive")
