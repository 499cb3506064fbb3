"""The project's own Python environment: made, kept up to its pins, mended when half made.

`try.py` and `check.py` share it. Standard library only, and readable by every Python
from 3.6 on, so that one that is too old is told so in a sentence: annotations here are
built-in names or strings, and nothing newer is imported before it is needed.
"""

import contextlib
import hashlib
import importlib.util
import json
import os
import shutil
import signal
import subprocess
import sys
from collections import deque
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
OLDEST_PYTHON = (3, 11)
LINES_SHOWN = 20
WORTH_SHOWING = ("Collecting", "Processing", "Installing", "Get:", "Unpacking", "Setting up")
STOPPED = 128  # what a shell adds to the number of the signal that stopped a command


class SetUpError(Exception):
    """The environment could not be made: `step` is what was being done, `lines` its last words."""

    def __init__(self, step: str, lines: "list[str]") -> None:
        super().__init__(step, lines)
        self.step = step
        self.lines = lines


def what_to_install() -> "str | None":
    """One line that says what this machine's Python lacks, or None if it will do."""
    have = "{}.{}".format(*sys.version_info[:2])
    want = "{}.{}".format(*OLDEST_PYTHON)
    if os.name != "posix":
        return "Cagewright runs on Linux and macOS; on Windows install WSL and start it there."
    if sys.version_info < OLDEST_PYTHON:
        return (
            f"Cagewright needs Python {want} or newer, this is {have}: "
            f"install python{want} and python{want}-venv, then start with python{want}."
        )
    lacking = [name for name in ("venv", "ensurepip") if importlib.util.find_spec(name) is None]
    if lacking:
        return f"This Python has no {lacking[0]}: install python{have}-venv, then start again."
    return None


def prepare(root: Path, tests: bool) -> Path:
    """The environment's Python, with the pins of `root` installed (`tests`: the test extras too).

    Unchanged pins cost a few milliseconds and no network. Raises `SetUpError`.
    """
    if not _is_ready(root, tests):
        with _alone(root) as held:
            # Another run may have done the work while this one waited its turn.
            if not _is_ready(root, tests):
                _install(root, tests, held)
    return _python(root)


def run_quietly(command: "list[str]", step: str, held: "tuple[int, ...]" = ()) -> None:
    """Run `command`; a terminal sees one line of progress, its words only if it fails.

    `held` are file descriptors the command keeps open. Raises `SetUpError`.
    """
    last: deque[str] = deque(maxlen=LINES_SHOWN)
    with subprocess.Popen(
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        errors="replace",
        pass_fds=held,
    ) as running:
        assert running.stdout is not None
        try:
            for line in running.stdout:
                last.append(line.rstrip())
                if line.startswith(WORTH_SHOWING):
                    _progress("{}: {}".format(step, " ".join(line.split()[:2])))
        except BaseException:
            running.kill()
            raise
        finally:
            _progress("")
    if running.returncode:
        raise SetUpError(step, list(last))


def explain(error: SetUpError) -> str:
    """What a person reads when the environment could not be made."""
    return "\n".join([*error.lines, f"{error.step} did not work; its last lines are above."])


def _python(root: Path) -> Path:
    return root / ".venv" / "bin" / "python"


def _stamp(root: Path) -> Path:
    return root / ".venv" / "set-up.json"


def _pins(tests: bool) -> str:
    return "requirements-dev.txt" if tests else "requirements.txt"


def _made_for(root: Path) -> "list[str]":
    """Where an environment works: its scripts name their folder, its packages their Python."""
    return [str(root), os.path.realpath(_python(root))]


def _digest(root: Path, tests: bool) -> str:
    """A fingerprint of everything that decides what gets installed."""
    import tomllib  # noqa: PLC0415 - not there before Python 3.11

    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))
    decides = {name: project.get(name) for name in ("build-system", "project")}
    decides["build"] = project.get("tool", {}).get("hatch")
    pins = (root / "deploy" / _pins(tests)).read_bytes()
    return hashlib.sha256(json.dumps(decides, sort_keys=True).encode() + pins).hexdigest()


def _read_stamp(root: Path) -> "dict[str, object]":
    """What stands in a whole environment; nothing if there is none or it is half made."""
    with contextlib.suppress(FileNotFoundError, json.JSONDecodeError):
        stamp = json.loads(_stamp(root).read_text(encoding="utf-8"))
        if _python(root).exists() and stamp["made_for"] == _made_for(root):
            return dict(stamp)
    return {}


def _write_stamp(root: Path, stamp: "dict[str, object]") -> None:
    fresh = _stamp(root).with_suffix(".new")
    fresh.write_text(json.dumps(stamp), encoding="utf-8")
    fresh.replace(_stamp(root))


def _is_ready(root: Path, tests: bool) -> bool:
    return _read_stamp(root).get(_pins(tests)) == _digest(root, tests)


def _install(root: Path, tests: bool, held: "tuple[int, ...]") -> None:
    if not _read_stamp(root):
        base = os.path.realpath(sys.executable)
        anew = [base, "-m", "venv", "--clear", str(root / ".venv")]
        run_quietly(anew, "Making the environment", held)
    # Gone while packages change: a run that is killed half-way leaves no stamp behind.
    _stamp(root).unlink(missing_ok=True)
    stamp: dict[str, object] = {"made_for": _made_for(root)}
    try:
        _install_packages(root, tests, held)
    except SetUpError:
        # pip took back what it began: the environment stands, only not at these pins.
        _write_stamp(root, stamp)
        raise
    # The test pins hold the others too, at the same versions.
    stamp.update((_pins(each), _digest(root, each)) for each in {tests, False})
    _write_stamp(root, stamp)


def _install_packages(root: Path, tests: bool, held: "tuple[int, ...]") -> None:
    pip = [str(_python(root)), "-m", "pip", "--disable-pip-version-check", "install"]
    pins = ["--progress-bar", "off", "--require-hashes", "-r", str(root / "deploy" / _pins(tests))]
    run_quietly([*pip, *pins], "Installing the packages", held)
    own = ["--no-deps", "--no-build-isolation", "-e", str(root)]
    run_quietly([*pip, *own], "Installing Cagewright", held)


@contextlib.contextmanager
def _alone(root: Path) -> "Iterator[tuple[int, ...]]":
    """One set-up at a time; what it starts holds the lock too, should it outlive this run."""
    import fcntl  # noqa: PLC0415 - not there on Windows, which is told what to do instead

    folder = root / ".venv"
    folder.mkdir(exist_ok=True)
    lock = os.open(folder, os.O_RDONLY)
    before = signal.signal(signal.SIGTERM, _stop)
    try:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield (lock,)
    finally:
        signal.signal(signal.SIGTERM, before)
        os.close(lock)


def _stop(number: int, _frame: object) -> None:
    raise SystemExit(STOPPED + number)


def _progress(text: str) -> None:
    """One line on a terminal that writes over itself; nothing where it would fill a log."""
    if sys.stderr.isatty():
        width = shutil.get_terminal_size().columns - 1
        sys.stderr.write("\r\033[K" + text[:width])
        sys.stderr.flush()
