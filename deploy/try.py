"""Set Cagewright up and start it: a demo workshop, the web chat and the desk page.

    python3 deploy/try.py                          both addresses are printed
    python3 deploy/try.py --port 9000
    python3 deploy/try.py --no-start               only install
    python3 deploy/try.py -- size request.json     any command of the program

Standard library only; see `environment` for what an old Python can read.
"""

import argparse
import os
import sys
from typing import NoReturn

import environment


def main(arguments: "list[str]") -> int:
    """Install what is pinned, then become the program; the exit code is its own."""
    missing = environment.what_to_install()
    if missing is not None:
        sys.stderr.write(missing + "\n")
        return 2
    end = arguments.index("--") if "--" in arguments else len(arguments)
    options, program = _read(arguments[:end]), arguments[end + 1 :]
    try:
        python = str(environment.prepare(environment.ROOT, tests=False))
    except environment.SetUpError as error:
        sys.stderr.write(environment.explain(error) + "\n")
        return 1
    except KeyboardInterrupt:
        return environment.STOPPED + 2
    if options.no_start:
        return 0
    if not program:
        program = ["serve", "--demo"]
        _keep_demo_apart()
        if options.port is not None:
            program += ["--port", str(options.port)]
    return _become(python, program)


def _keep_demo_apart() -> None:
    """The demo's database and key stand in this folder under `local/`, never among real orders;
    who names another database in the environment means it."""
    if "CAGEWRIGHT_DATABASE" not in os.environ:
        local = environment.ROOT / "local"
        os.environ["CAGEWRIGHT_DATABASE"] = str(local / "workshop" / "workshop.db")
        os.environ["CAGEWRIGHT_KEY_FILE"] = str(local / "key")


def _become(python: str, program: "list[str]") -> NoReturn:
    """Give this process to the program: signals reach it and its exit code is ours."""
    # -P: a folder called `bot` where the person stands is not the program.
    os.execv(python, [python, "-P", "-m", "bot", *program])


def _read(arguments: "list[str]") -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="try.py",
        description="Set Cagewright up and start a demo workshop on this machine.",
        epilog="Arguments after -- go to the program: python3 deploy/try.py -- size request.json",
    )
    parser.add_argument("--port", type=int, help="port of the web chat (8765 unless taken)")
    parser.add_argument("--no-start", action="store_true", help="only install, start nothing")
    return parser.parse_args(arguments)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
