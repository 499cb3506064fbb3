"""What is personal is sealed."""

from __future__ import annotations

import stat
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.storage.errors import KeyFileError, SealError
from bot.storage.sealing import Sealer, make_key, read_key

KEY = bytes(range(32))
PLACE = "people.contact_sealed"


@given(st.text())
def test_what_was_sealed_opens_again(text: str) -> None:
    """Any text comes back as it was."""
    sealer = Sealer(KEY)
    assert sealer.open(sealer.seal(text, PLACE), PLACE) == text


def test_the_same_text_is_never_sealed_the_same() -> None:
    """Two rows with the same words do not show that they are the same."""
    sealer = Sealer(KEY)
    assert sealer.seal("Anna", PLACE) != sealer.seal("Anna", PLACE)


def test_a_value_opens_only_where_it_belongs() -> None:
    """A sealed value that was copied to another column does not open there."""
    sealer = Sealer(KEY)
    with pytest.raises(SealError) as caught:
        sealer.open(sealer.seal("Anna", PLACE), "notes.text_sealed")
    assert caught.value.place == "notes.text_sealed"


@pytest.mark.parametrize("sealed", [b"", b"\x01", b"\x02" + bytes(40), b"\x01" + bytes(40)])
def test_what_was_never_sealed_does_not_open(sealed: bytes) -> None:
    """Damage is told from words."""
    with pytest.raises(SealError):
        Sealer(KEY).open(sealed, PLACE)


def test_another_key_opens_nothing() -> None:
    """Only the key that sealed opens."""
    with pytest.raises(SealError):
        Sealer(bytes(32)).open(Sealer(KEY).seal("Anna", PLACE), PLACE)


def test_a_digest_tells_the_same_name_again_and_needs_the_key() -> None:
    """The same for the same name and key; another for another name or key."""
    digest = Sealer(KEY).digest("anna")
    assert digest == Sealer(KEY).digest("anna")
    assert digest not in {Sealer(KEY).digest("ola"), Sealer(bytes(32)).digest("anna")}


def test_a_new_key_is_for_its_owner_alone(tmp_path: Path) -> None:
    """The file has mode 0600 in a folder of mode 0700, and nothing else lies there."""
    file = tmp_path / "secret" / "key"
    key = make_key(file)
    assert len(key) == 32
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert stat.S_IMODE(file.parent.stat().st_mode) == 0o700
    assert list(file.parent.iterdir()) == [file]


def test_a_key_that_exists_is_never_written_over(tmp_path: Path) -> None:
    """Making a key where there is one gives that one."""
    file = tmp_path / "key"
    assert make_key(file) == make_key(file) == read_key(file)


@pytest.mark.parametrize(
    ("content", "mode", "reason"),
    [(KEY, 0o640, "readable-by-others"), (KEY[:31], 0o600, "not-a-key")],
)
def test_a_key_file_that_will_not_do_says_why(
    tmp_path: Path, content: bytes, mode: int, reason: str
) -> None:
    """The error names the file and the reason."""
    file = tmp_path / "key"
    file.write_bytes(content)
    file.chmod(mode)
    with pytest.raises(KeyFileError) as caught:
        read_key(file)
    assert (caught.value.path, caught.value.reason) == (file, reason)


def test_a_missing_key_is_said_to_be_missing(tmp_path: Path) -> None:
    """Reading never makes a key."""
    with pytest.raises(KeyFileError) as caught:
        read_key(tmp_path / "key")
    assert caught.value.reason == "missing"
