"""What holds for every test: browsers that are missing, skips in CI, steady examples."""

from __future__ import annotations

import os
import shutil
from collections.abc import Generator
from typing import TypeVar

import pytest
from hypothesis import settings

BROWSER = "chromium"
Report = TypeVar("Report", pytest.TestReport, pytest.CollectReport)

# The same examples every time, whatever else the machine is doing.
settings.register_profile("steady", derandomize=True, deadline=None)
settings.load_profile("steady")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Tests that drive a browser are skipped, visibly, where there is none."""
    if shutil.which(BROWSER) is None:
        for item in items:
            if item.get_closest_marker("browser") is not None:
                item.add_marker(pytest.mark.skip(reason=f"{BROWSER} is not installed"))


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """In CI a skipped test is a failed one."""
    return _without_skips((yield))


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report() -> Generator[None, pytest.CollectReport, pytest.CollectReport]:
    """In CI a skipped file is a failed one."""
    return _without_skips((yield))


def _without_skips(report: Report) -> Report:
    in_ci = os.environ.get("CI") == "true"
    if in_ci and report.skipped and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"Skipped, and in CI nothing may be: {report.longreprtext}"
    return report
