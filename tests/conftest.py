"""What holds for every test: none depends on how busy the machine is. And the demo handbook, built once a run."""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
from pathlib import Path

import pytest
from filelock import FileLock
from hypothesis import settings

settings.register_profile("patient", deadline=None)
settings.load_profile("patient")


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
def demo(tmp_path_factory, worker_id) -> Path:
    """The demo handbook as it lies on a memory stick; all workers of a run read one and the same."""
    root, base = Path(__file__).parents[1], tmp_path_factory.getbasetemp()
    shared = base if worker_id == "master" else base.parent
    site, whole = shared / "demo", shared / "demo-is-whole"
    command = [sys.executable, "-m", "mkdocs", "build", "-q", "-f", str(root / "mkdocs.yml"), "-d", str(site)]
    with FileLock(shared / "demo.lock"):
        if not whole.exists():
            subprocess.run(command, check=True, cwd=root, env=os.environ | {"OFFLINE": "true"})
            whole.touch()
    return site
