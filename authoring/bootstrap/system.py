"""What the operating system must bring: libraries for Qt, programs for the tests."""

import ctypes
import os
import shutil
import sys
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from authoring.bootstrap.told import run, say

# Library by its runtime name: Debian's and Fedora's package. Read from the NEEDED entries of the
# QtGui, QtWidgets and xcb platform libraries of Qt 6.11.
QT_LIBRARIES: Mapping[str, tuple[str, str]] = {
    "libEGL.so.1": ("libegl1", "libglvnd-egl"),
    "libGL.so.1": ("libgl1", "libglvnd-glx"),
    "libfontconfig.so.1": ("libfontconfig1", "fontconfig"),
    "libfreetype.so.6": ("libfreetype6", "freetype"),
    "libglib-2.0.so.0": ("libglib2.0-0", "glib2"),
    "libdbus-1.so.3": ("libdbus-1-3", "dbus-libs"),
    "libxkbcommon.so.0": ("libxkbcommon0", "libxkbcommon"),
    "libxkbcommon-x11.so.0": ("libxkbcommon-x11-0", "libxkbcommon-x11"),
    "libX11-xcb.so.1": ("libx11-xcb1", "libX11-xcb"),
    "libxcb-cursor.so.0": ("libxcb-cursor0", "xcb-util-cursor"),
    "libxcb-icccm.so.4": ("libxcb-icccm4", "xcb-util-wm"),
    "libxcb-image.so.0": ("libxcb-image0", "xcb-util-image"),
    "libxcb-keysyms.so.1": ("libxcb-keysyms1", "xcb-util-keysyms"),
    "libxcb-randr.so.0": ("libxcb-randr0", "libxcb"),
    "libxcb-render-util.so.0": ("libxcb-render-util0", "xcb-util-renderutil"),
    "libxcb-shape.so.0": ("libxcb-shape0", "libxcb"),
    "libxcb-sync.so.1": ("libxcb-sync1", "libxcb"),
    "libxcb-xfixes.so.0": ("libxcb-xfixes0", "libxcb"),
    "libxcb-xkb.so.1": ("libxcb-xkb1", "libxcb"),
}

# Program that the tests call: the Debian package that brings it.
TEST_PROGRAMS: Mapping[str, str] = {
    "chromium": "chromium",
    "java": "default-jre-headless",
    "node": "nodejs",
    "npm": "npm",
    "pandoc": "pandoc",
    "pdftoppm": "poppler-utils",
    "soffice": "libreoffice-writer",
    "strace": "strace",
}


def is_debian() -> bool:
    """Whether Debian's package tool is here (Debian, Ubuntu and their kin)."""
    return Path("/etc/debian_version").is_file() and shutil.which("apt-get") is not None


def is_root() -> bool:
    return hasattr(os, "geteuid") and os.geteuid() == 0


def has_display() -> bool:
    """Whether a window could be shown."""
    if sys.platform in ("win32", "darwin"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def can_load(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def missing_libraries(libraries: Iterable[str] = QT_LIBRARIES) -> list[str]:
    """Those of `libraries` that the dynamic loader cannot find; always empty but on Linux."""
    if not sys.platform.startswith("linux"):
        return []
    return [library for library in libraries if not can_load(library)]


def missing_programs(programs: Iterable[str] = TEST_PROGRAMS) -> list[str]:
    return [program for program in programs if shutil.which(program) is None]


def install_line(packages: Sequence[str]) -> str:
    """The line that installs Debian packages, to be typed by a person."""
    sudo = "" if is_root() else "sudo "
    return f"{sudo}apt-get install -y {' '.join(packages)}"


def provide(packages: Sequence[str], purpose: str) -> bool:
    """Install Debian packages as root, else say the line that does; True if installed."""
    if not packages:
        return True
    if not (is_debian() and is_root()):
        say(f"Missing {purpose}. Run: {install_line(packages)}")
        return False
    say(f"Installing {' '.join(packages)} {purpose}.")
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    root = Path("/")
    run(["apt-get", "update", "-qq"], folder=root, environment=environment)
    command = ["apt-get", "install", "-y", "-qq", "-o", "Dpkg::Use-Pty=0"]
    command += ["--no-install-recommends", *packages]
    if run(command, folder=root, environment=environment):
        say(f"They could not be installed; the lines above say why. Run: {install_line(packages)}")
        return False
    return True


def provide_qt_libraries() -> bool:
    """See that Qt can start, or say what it lacks; True when nothing is missing afterwards."""
    missing = missing_libraries()
    if not missing:
        return True
    purpose = "for the editor's windows"
    if is_debian():
        provide(sorted({QT_LIBRARIES[name][0] for name in missing}), purpose)
    elif shutil.which("dnf"):
        packages = sorted({QT_LIBRARIES[name][1] for name in missing})
        say(f"Missing {purpose}. Run: sudo dnf install -y {' '.join(packages)}")
    else:
        say(f"Missing {purpose}. Install the packages that bring: {' '.join(missing)}")
    return not missing_libraries(missing)


def provide_test_programs() -> None:
    """See that the outside judges' programs are here, or say how to get them."""
    missing = missing_programs()
    if is_debian():
        provide(sorted({TEST_PROGRAMS[name] for name in missing}), "for the tests")
    elif missing:
        say(f"Missing for the tests, which will say what was not run: {', '.join(missing)}.")
