"""`orders resize`: what is shown, what is made, what is refused."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from bot.commands import resize
from bot.settings import load_settings
from bot.wiring import Workshop, open_workshop
from conversations.events import Desk, DeskVerb, Text
from conversations.review import Stage

Output = pytest.CaptureFixture[str]
ANSWERS = ("360", "260", "391", "10 mm", "35", "27", "375", "393", "253", "17 mm", "box", "10")


class House:
    """A workshop with one order, open only where a test opens it."""

    def __init__(self, folder: Path) -> None:
        self.figures = folder / "figures.toml"
        self.write("9")
        with self.opened() as workshop:
            for count, text in enumerate(("hello", "en", "isolate", "I don't know", *ANSWERS,
                                          "anna@example.org", "Hand in")):  # fmt: skip
                event = Text(id=str(count), person="anna", at=workshop.clock.now(), text=text)
                workshop.service.receive(event, "web")
            self.number = str(self.rows(workshop, "SELECT number FROM orders")[0][0])

    def opened(self) -> Workshop:
        """The workshop, with the figures of the settings."""
        return open_workshop(load_settings())

    def write(self, along: str) -> None:
        """A file with the workshop's own allowance along."""
        self.figures.write_text(
            f'version = "new"\n[figure.allowance_along]\nvalue = {along}\nunit = "mm"\n', "utf-8"
        )

    def run(self, *, yes: bool = False, as_json: bool = False) -> int:
        """The command, with the workshop's own figures."""
        return resize.run(self.number, figures=self.figures, yes=yes, as_json=as_json)

    def rows(self, workshop: Workshop, question: str) -> list[tuple[object, ...]]:
        """What the database answers."""
        with workshop.database.reading() as connection:
            return [tuple(row) for row in connection.execute(question)]

    def cages(self) -> list[tuple[object, ...]]:
        """Version, outside length and figures of every cage that was kept."""
        with self.opened() as workshop:
            return self.rows(
                workshop,
                "SELECT version, json_extract(design_json, '$.cage.length_outside'),"
                " substr(workshop_version, 1, 3) FROM cages ORDER BY version",
            )


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> House:
    """A workshop in folders of its own."""
    monkeypatch.setenv("CAGEWRIGHT_DATABASE", str(tmp_path / "data" / "workshop.db"))
    monkeypatch.setenv("CAGEWRIGHT_KEY_FILE", str(tmp_path / "secret" / "key"))
    return House(tmp_path)


def test_what_changes_is_shown_and_nothing_is_made(house: House, capsys: Output) -> None:
    """Without a yes and without anybody to ask, the order stays as it is."""
    assert house.run() == 0
    lines = capsys.readouterr().out.splitlines()
    assert "figures 1, now new-" in lines[0]
    assert any("cage.length_outside" in one and one.endswith("370 -> 369") for one in lines)
    assert house.cages() == [(1, 370.0, "1")]


def test_a_new_version_is_made_and_the_old_one_stays(house: House, capsys: Output) -> None:
    """The first version keeps its numbers and figures; the second has the new ones."""
    assert house.run(yes=True) == 0
    assert "Version 2 is made" in capsys.readouterr().out
    assert house.cages() == [(1, 370.0, "1"), (2, 369.0, "new")]
    with house.opened() as workshop:
        made = house.rows(workshop, "SELECT version, by, reason FROM versions ORDER BY version")
        assert made[1] == (2, "operator", "resized")
    assert house.run(yes=True) == 0
    assert "Nothing changes" in capsys.readouterr().out
    assert len(house.cages()) == 2


def test_as_json(house: House, capsys: Output) -> None:
    """The same for programs, and nothing else on standard output."""
    assert house.run(as_json=True) == 0
    shown = json.loads(capsys.readouterr().out)
    assert (shown["version"], shown["from"], shown["made"]) == (1, ["1"], None)
    length = next(one for one in shown["differences"] if one["name"] == "cage.length_outside")
    assert length == {"item": 1, "name": "cage.length_outside", "before": 370.0, "after": 369.0}
    assert house.run(as_json=True, yes=True) == 0
    assert json.loads(capsys.readouterr().out)["made"] == 2


@pytest.mark.parametrize(("typed", "versions"), [("y\n", 2), ("n\n", 1), ("", 1)])
def test_whoever_sits_there_is_asked(
    house: House, monkeypatch: pytest.MonkeyPatch, typed: str, versions: int
) -> None:
    """Only a yes makes a version."""

    class Keyboard:
        def isatty(self) -> bool:
            """Somebody sits there."""
            return True

        def readline(self) -> str:
            """And types this."""
            return typed

    monkeypatch.setattr("sys.stdin", Keyboard())
    assert house.run() == 0
    assert len(house.cages()) == versions


def test_an_order_on_the_bench_is_not_made_otherwise(house: House, capsys: Output) -> None:
    """What changes is still shown; a yes is answered with a clear no."""
    with house.opened() as workshop:
        for count, verb in enumerate((DeskVerb.CLEAR, DeskVerb.BENCH)):
            event = Desk(
                id=f"d{count}", person="", at=workshop.clock.now(), by="maria", verb=verb,
                number=house.number,
            )  # fmt: skip
            workshop.service.receive(event, "talk")
    assert house.run() == 0
    assert house.run(yes=True) == 1
    assert f"It is {Stage.ON_THE_BENCH}" in capsys.readouterr().out
    assert len(house.cages()) == 1


def test_no_version_is_made_while_another_process_serves(house: House, capsys: Output) -> None:
    """One process writes; what changes can be looked at all the same."""
    with house.opened():
        assert house.run() == 0
        capsys.readouterr()
        assert house.run(yes=True) == 1
    assert "stop it first" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("number", "along", "code", "words"),
    [("12345678", "9", 2, "number: "), ("48291742", "9", 1, "there is no order"),
     (None, "90", 2, "figures: figure.allowance_along.value: 6 to 14 mm")],
)  # fmt: skip
def test_what_cannot_be_used_is_one_line_on_standard_error(
    house: House, capsys: Output, number: str | None, along: str, code: int, words: str
) -> None:
    """Nothing on standard output."""
    house.write(along)
    found = resize.run(number or house.number, figures=house.figures, yes=True, as_json=False)
    out, err = capsys.readouterr()
    assert (found, out) == (code, "")
    assert words in err
    assert err.count("\n") == 1
