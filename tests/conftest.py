"""What holds for every test: none depends on how busy the machine is. And the demo handbook, built once a run."""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from filelock import FileLock
from hypothesis import settings

settings.register_profile("patient", deadline=None)
settings.load_profile("patient")


def pytest_terminal_summary(terminalreporter):
    """Say loudly, at the very end, that a run without a browser has not looked at a single page."""
    skipped = [one for one in terminalreporter.stats.get("skipped", ()) if "tests/browser/" in one.nodeid]
    if skipped:
        terminalreporter.section("NO BROWSER", sep="!", red=True, bold=True)
        terminalreporter.line(f"{len(skipped)} browser tests were NOT RUN. Debian: apt install chromium", red=True)


@pytest.fixture
def full_disk():
    """A disk on which no file grows beyond so many bytes: `with full_disk(1000):`; the system says so, as it would."""
    resource = pytest.importorskip("resource")

    @contextlib.contextmanager
    def full(size):
        before = resource.getrlimit(resource.RLIMIT_FSIZE)
        resource.setrlimit(resource.RLIMIT_FSIZE, (size, before[1]))
        try:
            yield
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, before)

    return full


@pytest.fixture(scope="session")
def built_once(tmp_path_factory, worker_id):
    """Gives the folder `name` as `make(folder)` fills it: by the first worker that asks, for all workers of a run."""
    base = tmp_path_factory.getbasetemp()
    shared = base if worker_id == "master" else base.parent

    def once(name: str, make: Callable[[Path], object]) -> Path:
        folder, whole = shared / name, shared / f"{name}-is-whole"
        with FileLock(shared / f"{name}.lock"):
            if not whole.exists():
                make(folder)
                whole.touch()
        return folder

    return once


@pytest.fixture(scope="session")
def demo(built_once) -> Path:
    """The demo handbook as it lies on a memory stick."""
    root = Path(__file__).parents[1]
    command = [sys.executable, "-m", "mkdocs", "build", "-q", "-f", str(root / "mkdocs.yml"), "-d"]
    offline = os.environ | {"OFFLINE": "true"}
    return built_once("demo", lambda site: subprocess.run([*command, site], check=True, cwd=root, env=offline))
