"""Pin every package anew, with hashes: the runtime ones and those of the tests.

    python3 deploy/lock.py                 keeps the pins that still satisfy pyproject.toml
    python3 deploy/lock.py --upgrade       takes the newest of everything

Needs the program `uv`; nothing else here does.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
COMMON = [
    "--quiet", "--universal", "--python-version", "3.11", "--generate-hashes",
    "--no-header", "--no-emit-index-url", "--no-emit-find-links",
]  # fmt: skip
RUNTIME = "deploy/requirements.txt"
TESTS = "deploy/requirements-dev.txt"
EXTRAS = ["--extra", "papers", "--extra", "nesting"]
LOCKS = {
    RUNTIME: ["pyproject.toml", "deploy/build.in", *EXTRAS],
    TESTS: ["pyproject.toml", "deploy/build.in", *EXTRAS, "--extra", "dev", "-c", RUNTIME],
}


def main(arguments: list[str]) -> int:
    """Write both lock files; 2 if `uv` is not here, 1 if a lock would name a host."""
    uv = shutil.which("uv")
    if uv is None:
        sys.stderr.write("This needs uv, which is not here: install uv, then start again.\n")
        return 2
    for lock, sources in LOCKS.items():
        command = [uv, "pip", "compile", *COMMON, *arguments, *sources, "-o", lock]
        done = subprocess.run(command, cwd=ROOT, check=False, stdout=subprocess.DEVNULL)
        if done.returncode:
            return done.returncode
        named = hosts_in((ROOT / lock).read_text(encoding="utf-8"))
        if named:
            sys.stderr.write(f"{lock} names {', '.join(named)}: pins are to name no host.\n")
            return 1
    return 0


def hosts_in(lock: str) -> list[str]:
    """The addresses that the text of a lock file names, each once, in order."""
    return list(dict.fromkeys(re.findall(r"\b\w+://[^\s/\"']*", lock)))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
