"""What a button carries, and how buttons stand in rows."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from bot.channels.telegram.buttons import keyboard, pack, unpack
from bot.ports import Button


@given(st.integers(0, 999_999_999), st.integers(0, 999))
def test_what_was_packed_is_unpacked_and_fits(k: int, place: int) -> None:
    """At most 64 bytes (Bot API, InlineKeyboardButton.callback_data)."""
    data = pack(k, place)
    assert 1 <= len(data.encode()) <= 64
    assert unpack(data) == (k, place)


@given(st.text(max_size=70))
def test_what_no_button_of_ours_carries_is_nothing(data: str) -> None:
    """Unless it happens to be of exactly our shape."""
    found = unpack(data)
    assert found is None or pack(*found) == data or data != data.strip() or data[2] == "0"


def test_short_labels_stand_side_by_side_and_long_ones_alone() -> None:
    """At most two in a row, in the order in which they were given."""
    labels = ("Yes", "No", "Only the queen, workers pass", "Later", "Send it once more please", "A")
    made = keyboard(7, [Button(str(n), label) for n, label in enumerate(labels)])
    assert made is not None
    assert [[one.text for one in row] for row in made.inline_keyboard] == [
        ["Yes", "No"], ["Only the queen, workers pass"], ["Later"],
        ["Send it once more please"], ["A"],
    ]  # fmt: skip
    places = [one.callback_data for row in made.inline_keyboard for one in row]
    assert places == [pack(7, place) for place in range(len(labels))]


def test_a_message_without_choices_has_no_keyboard() -> None:
    """Not an empty one, which the other side refuses."""
    assert keyboard(1, []) is None
