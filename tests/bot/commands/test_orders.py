"""`cagewright orders`."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bot.commands.orders import list_orders, show_order

if TYPE_CHECKING:
    from tests.bot.conftest import Shop

Output = pytest.CaptureFixture[str]


@pytest.fixture
def number(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> str:
    """An order of Anna's, in the database of the settings, which is open as while serving."""
    monkeypatch.setenv("CAGEWRIGHT_DATABASE", str(shop.database.path))
    monkeypatch.setenv("CAGEWRIGHT_KEY_FILE", str(shop.folder / "secret" / "key"))
    monkeypatch.setenv("COLUMNS", "100")
    shop.send("contact +48 601 234 567; order")
    return str(shop.rows("SELECT number FROM orders")[0][0])


def test_orders_are_listed_as_json(number: str, capsys: Output) -> None:
    """Nothing else stands on stdout."""
    assert list_orders(stage=None, as_json=True) == 0
    assert json.loads(capsys.readouterr().out) == [
        {
            "number": number,
            "version": 1,
            "stage": "handed-in",
            "person": "anna",
            "handed_in_at": "2026-03-02T09:00:00.000Z",
        }
    ]


def test_orders_are_listed_as_a_table(number: str, capsys: Output) -> None:
    """With the number as people read it."""
    assert list_orders(stage="handed-in", as_json=False) == 0
    table = capsys.readouterr().out
    assert f"{number[:3]}\u00a0{number[3:6]}\u00a0{number[6:]}" in table
    assert "2026-03-02 09:00" in table


def test_orders_of_another_stage_are_left_out(number: str, capsys: Output) -> None:
    """An empty list is a list."""
    assert list_orders(stage="cleared", as_json=True) == 0
    assert json.loads(capsys.readouterr().out) == []


def test_a_stage_that_is_none_is_named(number: str, capsys: Output) -> None:
    """Exit 2, one line on stderr with the stages there are, nothing on stdout."""
    assert list_orders(stage="lost", as_json=True) == 2
    written = capsys.readouterr()
    assert written.out == ""
    assert written.err.startswith("stage: ")
    assert "handed-in" in written.err
    assert written.err.count("\n") == 1


def test_an_order_is_shown_as_json(shop: Shop, number: str, capsys: Output) -> None:
    """All the contract promises, also when the number is written in groups."""
    spaced = f"{number[:3]} {number[3:6]} {number[6:]}"
    assert show_order(spaced, as_json=True) == 0
    shown = json.loads(capsys.readouterr().out)
    assert shown["number"] == number
    assert shown["contact"] == "+48 601 234 567"
    assert set(shown["cages"][0]) == {"item", "label", "pieces", "request", "design"}
    assert set(shown["stages"][0]) == {"stage", "at", "by", "version"}


def test_an_order_is_shown_for_people(number: str, capsys: Output) -> None:
    """Sizes that are open are called so."""
    assert show_order(number, as_json=False) == 0
    text = capsys.readouterr().out
    assert "outside 370 × 270 × open mm, lid end-open, verdict make" in text
    assert "note: comb-fatter-than-wood (comb_thickness, widest_wood)" in text
    assert "+48 601 234 567" in text


@pytest.mark.parametrize("as_json", [True, False])
def test_there_is_no_such_order(number: str, capsys: Output, as_json: bool) -> None:
    """Exit 1; the reason is in the output."""
    assert show_order("48291742", as_json=as_json) == 1
    written = capsys.readouterr()
    assert written.err == ""
    if as_json:
        answer = json.loads(written.out)
        assert answer == {"refused": "no-such-order", "number": "48291742"}
    else:
        assert "482\u00a0917\u00a042" in written.out


@pytest.mark.parametrize("typed", ["48291743", "4829174", "anna", ""])
def test_what_is_no_number_is_said_to_be_none(number: str, capsys: Output, typed: str) -> None:
    """Exit 2 where a digit is wrong: the check digits tell."""
    assert show_order(typed, as_json=False) == 2
    assert capsys.readouterr().err.startswith("number: ")


def test_a_missing_database_is_named(tmp_path: Path, number: str, capsys: Output) -> None:
    """Exit 2; looking makes no database."""
    missing = tmp_path / "nothing.db"
    assert list_orders(stage=None, as_json=True, database=missing) == 2
    assert capsys.readouterr().err.startswith("database: ")
    assert show_order("48291742", as_json=True, database=missing) == 2
    assert not missing.exists()
