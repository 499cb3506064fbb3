"""The command line: names, options, help. What a command does is in `bot.commands`, and is
imported only when it is asked for, so that `--help`, `read` and `size` start at once."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any, NoReturn

import click

__all__ = ["main"]

_FILE = click.Path(path_type=Path, dir_okay=False)
_DATABASE = click.option("--database", type=_FILE, help="The workshop's database file.")


class _OneLine(click.Group):
    """Says what cannot be used in one line on stderr, and exits with 2."""

    def main(self, *args: Any, **kwargs: Any) -> NoReturn:
        """Run the program."""
        kwargs["standalone_mode"] = False
        try:
            code = super().main(*args, **kwargs)
        except click.exceptions.NoArgsIsHelpError as shown:
            click.echo(shown.ctx.get_help() if shown.ctx else shown.format_message())
            sys.exit(0)
        except click.UsageError as error:
            where = error.ctx.command_path if error.ctx else "cagewright"
            click.echo(f"{where}: {error.format_message()}", err=True)
            sys.exit(2)
        except click.Abort:
            sys.exit(130)
        sys.exit(code if isinstance(code, int) else 0)


@click.group(
    cls=_OneLine,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="Example: cagewright size request.json",
)
@click.version_option(package_name="cagewright")
def cagewright() -> None:
    """From a beekeeper's measurements to a queen cage that fits."""


@cagewright.command(epilog='Example: cagewright read --measure side_to_side "36,3 cm"')
@click.option("--measure", required=True, help="Which question is answered: side_to_side …")
@click.option("--language", help="Language written in; its words win where two languages collide.")
@click.option("--usual-unit", help="The unit this person has used so far: mm, cm or in.")
@click.argument("text")
def read(measure: str, language: str | None, usual_unit: str | None, text: str) -> int:
    """What one typed answer means, as JSON."""
    from bot.commands import read as command

    return command.run(text, measure, language, usual_unit)


@cagewright.command(epilog="Example: cagewright size --explain request.json")
@click.option("--explain", is_flag=True, help="Each chain as a line to check by hand.")
@click.argument("file", required=False)
def size(explain: bool, file: str | None) -> int:
    """Size one cage: JSON in (FILE, or - for standard input), JSON out."""
    from bot.commands import size as command

    return command.run(file, explain=explain)


@cagewright.command(epilog="Example: cagewright talk --language pl")
@_DATABASE
@click.option("--as", "name", default="you", show_default=True, help="Who is talking.")
@click.option("--language", help="Language the talk begins in.")
@click.option(
    "--pictures", type=click.Path(path_type=Path, file_okay=False), help="Write the pictures here."
)
@click.option(
    "--seed", type=int, default=0, show_default=True, help="For order numbers of a script."
)
@click.argument("script", required=False)
def talk(
    database: Path | None, name: str, language: str | None, pictures: Path | None, seed: int,
    script: str | None,
) -> int:  # fmt: skip
    """Chat in the terminal; with SCRIPT (or -) JSON lines in and out."""
    from bot.commands import talk as command

    return command.run(
        database=database, name=name, language=language, pictures=pictures, seed=seed, script=script
    )


@cagewright.command(epilog="Example: cagewright serve --port 8765")
@click.option("--host", help="Address to listen on.")
@click.option("--port", type=int, help="Port to listen on.")
@_DATABASE
@click.option("--telegram-api", metavar="URL", help="Another address of the Bot API.")
@click.option("--no-web", is_flag=True, help="Without the web chat and the desk page.")
@click.option("--no-telegram", is_flag=True, help="Without Telegram.")
@click.option("--demo", is_flag=True, help="With the demo workshop, made if there is none.")
def serve(
    host: str | None, port: int | None, database: Path | None, telegram_api: str | None,
    no_web: bool, no_telegram: bool, demo: bool,
) -> int:  # fmt: skip
    """Channels, worker and sender until stopped."""
    from bot.commands import serve as command

    return command.run(
        host=host, port=port, database=database, telegram_api=telegram_api,
        web=not no_web, telegram=not no_telegram, demo=demo,
    )  # fmt: skip


@cagewright.group(invoke_without_command=True, epilog="Example: cagewright orders show 48291742")
@click.pass_context
def orders(context: click.Context) -> int:
    """What the workshop has: list (the default), show NUMBER, resize NUMBER."""
    return int(context.invoke(listed)) if context.invoked_subcommand is None else 0


@orders.command("list", epilog="Example: cagewright orders list --stage handed-in --json")
@click.option("--stage", help="Only orders at this stage.")
@click.option("--json", "as_json", is_flag=True, help="JSON instead of a table.")
@_DATABASE
def listed(stage: str | None = None, as_json: bool = False, database: Path | None = None) -> int:
    """All orders, newest first."""
    from bot.commands import orders as command

    return command.list_orders(stage=stage, as_json=as_json, database=database)


@orders.command("show", epilog="Example: cagewright orders show 48291742 --json")
@click.argument("number")
@click.option("--json", "as_json", is_flag=True, help="JSON instead of text.")
@_DATABASE
def shown(number: str, as_json: bool, database: Path | None) -> int:
    """One order, whole."""
    from bot.commands import orders as command

    return command.show_order(number, as_json=as_json, database=database)


@orders.command("resize", epilog="Example: cagewright orders resize 48291742 --yes")
@click.argument("number")
@click.option("--figures", type=_FILE, help="Figures to size with, in place of those in use.")
@click.option("--yes", is_flag=True, help="Make the new version without asking.")
@click.option("--json", "as_json", is_flag=True, help="JSON instead of text; asks nothing.")
@_DATABASE
def resized(
    number: str, figures: Path | None, yes: bool, as_json: bool, database: Path | None
) -> int:
    """What changes with other figures; a new version if that is wanted."""
    from bot.commands import resize as command

    return command.run(number, figures=figures, yes=yes, as_json=as_json, database=database)


@cagewright.command(epilog="Example: cagewright papers 48291742 --out papers --language pl")
@click.argument("number")
@click.option(
    "--out", required=True, type=click.Path(path_type=Path, file_okay=False),
    help="The folder to write them into.",
)  # fmt: skip
@click.option("--language", help="Language of all papers; else the customer's copy is in theirs.")
@_DATABASE
def papers(number: str, out: Path, language: str | None, database: Path | None) -> int:
    """Everything of one order that is printed: for the bench, the customer, the parcel."""
    from bot.commands import papers as command

    return command.run(number, out=out, language=language, database=database)


@cagewright.command(epilog="Example: cagewright batch --out plan 48291742 48291839")
@click.argument("numbers", nargs=-1)
@click.option(
    "--out", required=True, type=click.Path(path_type=Path, file_okay=False),
    help="The folder to write into.",
)  # fmt: skip
@click.option("--language", default="en", show_default=True, help="Language of the plan.")
@click.option("--seconds", default=20.0, show_default=True, help="So long is planned at most.")
@_DATABASE
def batch(
    numbers: tuple[str, ...], out: Path, language: str, seconds: float, database: Path | None
) -> int:
    """Bars and sheets for several cleared orders (without NUMBERS: all of them)."""
    from bot.commands import batch as command

    return command.run(numbers, out=out, language=language, seconds=seconds, database=database)


@cagewright.command(epilog="Example: cagewright doctor")
@_DATABASE
def doctor(database: Path | None) -> int:
    """Settings, database, key, pictures, clock, channels: ok, or what to do."""
    from bot.commands import doctor as command

    return command.run(database=database)


@cagewright.group(epilog="Example: cagewright staff add maria --role desk")
def staff() -> None:
    """Who works at the workshop."""


@staff.command("add", epilog="Example: cagewright staff add maria --role desk")
@click.argument("name")
@click.option("--role", default="desk", show_default=True, help="operator, desk or bench.")
@_DATABASE
def staff_add(name: str, role: str, database: Path | None) -> int:
    """A code with which somebody signs in once."""
    from bot.commands import staff as command

    return command.add(name, role=role, database=database)


@staff.command("list", epilog="Example: cagewright staff list")
@_DATABASE
def staff_list(database: Path | None) -> int:
    """Everybody who works here, or did."""
    from bot.commands import staff as command

    return command.listed(database=database)


@staff.command("remove", epilog="Example: cagewright staff remove maria")
@click.argument("name")
@_DATABASE
def staff_remove(name: str, database: Path | None) -> int:
    """Somebody does nothing here any more, from now on."""
    from bot.commands import staff as command

    return command.remove(name, database=database)


def main() -> NoReturn:
    """Entry point of the program."""
    cagewright.main(prog_name="cagewright")
