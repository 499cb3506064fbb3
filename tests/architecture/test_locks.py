"""The pins: all there, all with hashes, and at home on every machine."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

RUNTIME = "requirements.txt"
TESTS = "requirements-dev.txt"
PIN = re.compile(r"^([\w.-]+)==(\S+)(.*(?:\n    --hash=sha256:[0-9a-f]{64}.*)*)", re.MULTILINE)

Pins = dict[str, set[str]]


@pytest.fixture
def locks(root: Path) -> dict[str, str]:
    """The text of both lock files."""
    return {name: (root / "deploy" / name).read_text("utf-8") for name in (RUNTIME, TESTS)}


def pins(lock: str) -> Pins:
    """Each pinned package with its versions (more than one where they differ by Python)."""
    found: Pins = {}
    for name, version, _ in PIN.findall(lock):
        found.setdefault(canonicalize_name(name), set()).add(version)
    return found


def test_every_requirement_is_pinned(locks: dict[str, str], root: Path) -> None:
    """What pyproject.toml asks for is pinned, at a version it accepts, build backend included."""
    project = tomllib.loads((root / "pyproject.toml").read_text("utf-8"))
    runtime = project["project"]["dependencies"] + project["build-system"]["requires"]
    asked = {RUNTIME: runtime}
    asked[TESTS] = runtime + project["project"]["optional-dependencies"]["dev"]
    wrong = []
    for name, lines in asked.items():
        pinned = pins(locks[name])
        for requirement in map(Requirement, lines):
            versions = pinned.get(canonicalize_name(requirement.name), set())
            if not versions or not all(map(requirement.specifier.contains, versions)):
                wrong.append(f"{name}: {requirement}")
    assert wrong == []


def test_every_pin_has_hashes(locks: dict[str, str]) -> None:
    """A pin without a hash would let any file in."""
    bare = [
        f"{name}: {package}"
        for name, lock in locks.items()
        for package, _, rest in PIN.findall(lock)
        if "--hash=sha256:" not in rest
    ]
    assert bare == []


def test_tests_run_on_the_versions_that_are_used(locks: dict[str, str]) -> None:
    """The pins of the tests hold every runtime pin, at the same version."""
    tested = pins(locks[TESTS])
    assert {name: tested.get(name) for name in pins(locks[RUNTIME])} == pins(locks[RUNTIME])


def test_pins_name_no_address(locks: dict[str, str]) -> None:
    """The pins do not say from where a package comes."""
    assert [name for name, lock in locks.items() if "://" in lock or "index" in lock] == []
