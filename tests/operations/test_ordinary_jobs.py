"""Does a change of the plan of cuts show? Forty ordinary jobs in three workshops, line by line, and the handbook's page.

After a change that is meant: `python -m tests.operations.ordinary_jobs`, and look at every line that is new.
"""

from __future__ import annotations

import pytest
from tests.operations import ordinary_jobs as jobs


def golden() -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    name = ""
    for text in jobs.GOLDEN.read_text(encoding="utf-8").splitlines():
        if text.startswith(" "):
            found[name].append(text.strip())
        else:
            name = text.partition(". ")[2]
            found[name] = []
    return found


def test_the_golden_file_has_every_job() -> None:
    assert list(golden()) == [job.name for job in jobs.JOBS]
    assert len(jobs.JOBS) >= 40


@pytest.mark.parametrize("job", jobs.JOBS, ids=lambda job: job.name)
def test_the_plan_of_a_job_is_as_it_was(job: jobs.Job) -> None:
    now = [f"{shop.removeprefix('osierbank-'):6} {jobs.line(jobs.chosen(job, shop))}".strip() for shop in jobs.SHOPS]
    assert now == golden()[job.name]


def test_the_page_shows_what_the_plan_chooses() -> None:
    page = jobs.PAGE.read_text(encoding="utf-8")
    assert page.partition(jobs.BEGIN)[2].partition(jobs.END)[0].strip() == jobs.table().strip()
