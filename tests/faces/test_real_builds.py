"""Whole builds with methods that are really worked out: the store, live writing, strict builds."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from mkdocs.exceptions import Abort
from sample_site import build, make_project, watched
from sample_stub import METHOD, WORKSHOP

pytestmark = pytest.mark.slow


@pytest.fixture
def project(tmp_path) -> Path:
    config = make_project(tmp_path, plugins=["search", {"methodsheets": {"reference": False}}])
    shutil.copy(WORKSHOP, tmp_path / "methods" / "workshops")
    (tmp_path / "methods" / "stub.md").write_text(METHOD, "utf-8")
    return config


def in_a_new_process(config: Path, code: str) -> str:
    """Build in a process of its own and then run `code` there; gives what it printed."""
    program = (
        "import sys, logging\n"
        "from mkdocs.config import load_config\nfrom mkdocs.commands.build import build\n"
        f"config = load_config({str(config)!r})\n"
        "config.plugins.run_event('startup', command='build', dirty=False)\nbuild(config)\n"
    )
    found = subprocess.run([sys.executable, "-c", program + code], capture_output=True, text=True, check=True)
    return found.stdout.strip()


def speed(page: str) -> str:
    return re.search(r'data-ms-fact="spindle_speed".*?ms-num">([\d ]+)<', page, re.S).group(1)


def test_a_method_is_worked_out_drawn_and_kept(project, tmp_path):
    site, warnings = build(project)
    assert warnings == []
    page = (site / "methods/stub/index.html").read_text("utf-8")
    assert 'data-ms-op="20"' in page
    assert re.search(r"A stub of <span[^>]*><span[^>]*>20\u202fmm", page)
    assert "<svg" in page
    assert "data-ms-island" not in page
    assert (tmp_path / ".cache/plugin/methodsheets/handbook.sqlite").is_file()
    first = {path.relative_to(site): path.read_bytes() for path in site.rglob("*.html")}
    heavy = "print(sorted({'pint', 'numpy', 'shapely', 'matplotlib', 'manifold3d'} & set(sys.modules)))"
    assert in_a_new_process(project, heavy) == "[]"
    second = {path.relative_to(site): path.read_bytes() for path in site.rglob("*.html")}
    assert [str(uri) for uri in first if first[uri] != second.get(uri)] == []


def test_live_writing_a_mistake_and_its_mending(project, tmp_path):
    """One plugin object over all builds, as while serving."""
    from mkdocs.commands.build import build as mkdocs_build
    from mkdocs.config import load_config

    file = tmp_path / "methods" / "stub.md"

    def save(text: str) -> tuple[str, list[str]]:
        file.write_text(text, "utf-8")
        with watched() as warnings:
            config = load_config(str(project))
            seen.add(id(config.plugins["methodsheets"]))
            config.plugins.run_event("startup", command="serve", dirty=False)
            mkdocs_build(config, serve_url="http://127.0.0.1:8000/")
        return (Path(config.site_dir) / "methods/stub/index.html").read_text("utf-8"), warnings.lines

    seen: set[int] = set()
    page, said = save(METHOD)
    assert said == []
    page, said = save(METHOD.replace("over 30 mm", "ovre 30 mm"))
    assert len(said) >= 1
    line = METHOD[: METHOD.index("turn: to size")].count("\n") + 1
    assert all(one.startswith(f"methodsheets: methods/stub.md:{line}:") for one in said)
    assert f"methods/stub.md:{line}:" in page
    assert "ms-problem" in page
    page, said = save(METHOD)
    assert said == []
    assert "ms-problem" not in page
    assert len(seen) == 1


def test_editing_the_workshop_changes_the_speeds(project, tmp_path):
    site, _ = build(project)
    before = speed((site / "methods/stub/index.html").read_text("utf-8"))
    shop = tmp_path / "methods" / "workshops" / "osierbank-small.yml"
    text = shop.read_text("utf-8")
    changed = re.sub(r"(?m)^(\s*speeds:).*$", r"\1 77 1/min", text, count=1)
    assert changed != text
    shop.write_text(changed, "utf-8")
    site, _ = build(project)
    assert speed((site / "methods/stub/index.html").read_text("utf-8")) == "77"
    assert before != "77"


def test_a_strict_build_fails_with_every_problem_in_one_run(project, tmp_path):
    methods = tmp_path / "methods"
    (methods / "stub.md").write_text(METHOD.replace("makes: 2", "maeks: 2"), "utf-8")
    (methods / "other.md").write_text(
        METHOD.replace("Plain stub", "Other").replace("turn: to size", "trun: to size"), "utf-8"
    )
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "-f", str(project)]
    found = subprocess.run(command, capture_output=True, text=True, check=False)
    assert found.returncode != 0
    said = found.stdout + found.stderr
    assert re.search(r"methods/stub\.md:\d+:\d+: .*maeks", said)
    assert re.search(r"methods/other\.md:\d+:\d+: .*trun", said)
    assert "Traceback" not in said


SPOILT = (
    METHOD.encode("utf-16"),
    METHOD.replace("\n", "\r\n").encode(),
    b"---\nmethod: [\n---\n",
    b"---\nmethod: &a [*a]\n---\n",
    METHOD.encode() + b"\x00",
    METHOD.encode() + b"x" * 5_000_000,
)


def test_bad_files_do_not_stop_the_others(project, tmp_path):
    for number, raw in enumerate(SPOILT):
        (tmp_path / "methods" / f"bad-{number}.md").write_bytes(raw)
    site, said = build(project)
    assert 'data-ms-op="20"' in (site / "methods/stub/index.html").read_text("utf-8")
    assert all("bad-" in line or "stub" in line for line in said)
    told = {number for number in range(len(SPOILT)) if any(f"methods/bad-{number}.md" in line for line in said)}
    assert told >= {0, 2, 3, 4, 5}  # one whose lines end as on another system is as good as any


DOORS = {
    "methodsheets.method.evaluate._prove": "methods/proof.md",
    "methodsheets.workshop.reader.read_workshop": "methods/workshops/broken.yml",
    "methodsheets.handbook.build.records_of": "methods/recorded.md",
}
"""What is made to fail in a whole build, and the file that it is told of."""


def test_what_fails_in_one_file_is_told_and_the_whole_handbook_is_built(project, tmp_path, monkeypatch):
    methods = tmp_path / "methods"
    (methods / "workshops" / "broken.yml").write_text(WORKSHOP.read_text("utf-8"), "utf-8")
    for name in ("proof", "recorded"):
        (methods / f"{name}.md").write_text(METHOD.replace("Plain stub", f"Planted {name}"), "utf-8")
    (methods / "records").mkdir()
    (methods / "records" / "recorded.csv").write_text("date,operation,part,measured\n2026-01-02,20,1,19.99\n", "utf-8")
    for door, file in DOORS.items():
        monkeypatch.setattr(door, _failing(door, Path(file).stem))
    with watched() as warnings, pytest.raises(Abort):  # the exit status says it, once all is built
        build(project)
    site, said = tmp_path / "site", warnings.lines
    told = [line for line in said if "PLANTED" in line]
    assert {re.search(r"methods/[\w/.]+", line).group() for line in told} == set(DOORS.values()), said
    assert len(told) == len(DOORS)
    assert all("please report it" in line and "Traceback" not in line for line in told)
    for name in ("stub", "proof", "recorded"):
        page = (site / f"methods/{name}/index.html").read_text("utf-8")
        assert 'data-ms-op="20"' in page
        assert ("PLANTED" in page) == (name != "stub"), name
        assert [line for line in said if f"/{name}.md" in line and "PLANTED" not in line] == []


def _failing(door: str, slug: str):
    module, _, name = door.rpartition(".")
    real = getattr(__import__(module, fromlist=[name]), name)

    def planted(*given, **more):
        one = getattr(given[0], "file", given[0])
        if getattr(one, "slug", getattr(one, "stem", "")) == slug:
            raise RuntimeError("PLANTED")
        return real(*given, **more)

    return planted
