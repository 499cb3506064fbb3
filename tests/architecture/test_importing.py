"""Importing the project does nothing: what happens, happens when it is asked for."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

WATCHER = """
import importlib, logging, os, sys, threading

root, names = sys.argv[1], sys.argv[2:]
DOES = ("socket.", "subprocess.", "sqlite3.", "os.mkdir", "os.remove", "os.rename", "os.system")
seen = []

def watch(event, arguments):
    if event == "open":
        path, _, flags = arguments
        path = os.path.abspath(os.fsdecode(path)) if not isinstance(path, int) else ""
        writes = flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT)
        ours = path.startswith(root + os.sep) and os.sep + ".venv" + os.sep not in path
        if writes or (ours and not path.endswith((".py", ".pyc"))):
            seen.append("opened " + path)
    elif event.startswith(DOES) and event != "socket.__new__":
        seen.append(event)

sys.addaudithook(watch)
for name in names:
    before = len(seen)
    importlib.import_module(name)
    for what in seen[before:]:
        print(name, what)
if threading.active_count() > 1:
    print("a thread was started")
if logging.getLogger().handlers:
    print("logging was set up")
"""


def test_importing_every_module_does_nothing(trees: dict[Path, ast.Module], root: Path) -> None:
    """No file is read or written, no thread, program, database or connection is opened."""
    names = [
        ".".join(path.with_suffix("").parts).removesuffix(".__init__")
        for path in trees
        if path.parts[0] in ("bot", "conversations", "sizing") and path.name != "__main__.py"
    ]
    command = [sys.executable, "-B", "-W", "error", "-c", WATCHER, str(root), *names]
    done = subprocess.run(command, cwd=root, capture_output=True, text=True, check=False)
    assert done.stdout + done.stderr == ""
    assert done.returncode == 0


def test_sizing_brings_nothing_heavy(root: Path) -> None:
    """Plain Python: no solver, no arrays, nothing that takes its time."""
    heavy = ("numpy", "scipy", "pydantic", "typst", "highspy")
    script = f"import sys, sizing.cage; print(*[n for n in {heavy} if n in sys.modules])"
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=root, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == ""
