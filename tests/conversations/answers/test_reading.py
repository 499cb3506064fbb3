"""What a beekeeper typed, read for one question."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conversations.answers import Option, Outcome, Reading, Reason, Unit, read, written
from conversations.answers.reading import LONGEST
from conversations.answers.words import LANGUAGES
from sizing.measures import COUNTS, Measure
from sizing.plausibility.ranges import band

ROWS = 99
OWN_ROWS = 475
SIDE = Measure.SIDE_TO_SIDE
TRICKY = "0123456789 .,;/'\"-+±x×()½⅛¹₈⁄°≈~<>?oOlIcmińfдюйsm\u200b\u00a0٣²"

Row = dict[str, str]


def expected(row: Row) -> tuple[str, tuple[Fraction, ...], bool | None, str | None]:
    """What the table says of one raw answer."""
    exact = {"yes": True, "no": False, "": None}[row["exact"]]
    values = tuple(Fraction(value) for value in row["values_mm"].split())
    return row["outcome"], values, exact, row["reason"] or None


def understood(row: Row) -> tuple[str, tuple[Fraction, ...], bool | None, str | None]:
    """What is read of the raw answer of one row."""
    usual = Unit(row["usual_unit"]) if row["usual_unit"] else None
    reading = read(
        row["raw"], Measure(row["measure"]), language=row["language"] or None, usual_unit=usual
    )
    return reading.outcome, reading.values, reading.exact, reading.reason


@pytest.mark.parametrize(("name", "count"), [("answers.csv", ROWS), ("own_answers.csv", OWN_ROWS)])
def test_every_raw_answer_of_the_tables_is_read_as_it_says(name: str, count: int) -> None:
    """All 99 answers that were agreed beforehand come out as agreed, and all further ones, in
    eight languages, as whoever typed them would expect."""
    with Path(__file__).with_name(name).open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    wrong = [
        (row["raw"], row["measure"], expected(row), understood(row))
        for row in rows
        if understood(row) != expected(row)
    ]
    assert len(rows) == count
    assert wrong == []


@pytest.mark.parametrize(
    ("text", "language", "reason"),
    [
        ("I don’t know", "en", Reason.DONT_KNOW),
        ("nie wiem, może 363", "pl", Reason.DONT_KNOW),
        ("??", None, Reason.HELP),
        ("pokaż", "pl", Reason.HELP),
        ("same as last time", "en", Reason.REUSE),
        ("później", "pl", Reason.LATER),
        ("stop", None, Reason.LATER),
        ("a person please", "en", Reason.PERSON),
        ("chcę rozmawiać z człowiekiem", "pl", Reason.PERSON),
        ("600 100 200", None, Reason.PHONE_NUMBER),
        ("tel. 0612345678", None, Reason.PHONE_NUMBER),
        ("482 917 42", None, Reason.ORDER_NUMBER),
    ],
)
def test_what_is_no_measurement_is_told_apart(
    text: str, language: str | None, reason: Reason
) -> None:
    """Wishes and other numbers are never read as a length."""
    reading = read(text, SIDE, language=language)
    assert (reading.outcome, reading.reason) == (Outcome.OTHER, reason)


@pytest.mark.parametrize("text", ["363, rest later", "show 363", "363 a person measured"])
def test_a_number_beside_a_wish_is_not_lost_and_not_taken(text: str) -> None:
    """The number is shown for a yes."""
    reading = read(text, SIDE, language="en")
    assert (reading.outcome, reading.values) == (Outcome.PROPOSE, (Fraction(363),))


@pytest.mark.parametrize(
    ("text", "measure", "reason"),
    [
        ("343 inside", SIDE, Reason.INSIDE),
        ("about 343 inside", SIDE, Reason.INSIDE),
        ("34,3 w świetle", SIDE, Reason.INSIDE),
        ("400 outside", Measure.INSIDE_ALONG, Reason.INSIDE),
        ("391 with lugs", SIDE, Reason.WITHOUT_LUGS),
        ("363 bez uszu", Measure.LUG_TO_LUG, Reason.WITHOUT_LUGS),
        ("10 frames", SIDE, Reason.WRONG_QUESTION),
    ],
)
def test_words_that_name_another_place_beat_the_number(
    text: str, measure: Measure, reason: Reason
) -> None:
    """Inside for outside, lugs in or out, a count for a length: asked, whatever fits."""
    reading = read(text, measure)
    assert (reading.outcome, reading.reason) == (Outcome.ASK, reason)


@pytest.mark.parametrize(
    ("text", "measure", "value"),
    [("375 inside", Measure.INSIDE_ALONG, 375), ("363 outside", SIDE, 363),
     ("363 bez uszu", SIDE, 363), ("391 z uszami", Measure.LUG_TO_LUG, 391)],
)  # fmt: skip
def test_words_that_name_the_place_asked_for_change_nothing(
    text: str, measure: Measure, value: int
) -> None:
    """Inside is right where inside is asked."""
    assert read(text, measure).values == (Fraction(value),)


@pytest.mark.parametrize(
    ("text", "language"),
    [("about 36", "en"), ("36 or so", "en"), ("36ish", "en"), ("just under 363", "en"),
     ("36 cm and a bit", "en"), ("około 36 cm", "pl"), ("36 cm z kawałkiem", "pl"),
     ("mniej więcej 36", "pl"), ("nie dokładnie 36 cm", "pl"), ("36+", None), ("~36 cm", None),
     ("ca. 36 cm", "de"), ("about 435x300", "en")],
)  # fmt: skip
def test_about_is_never_taken(text: str, language: str | None) -> None:
    """A guess is the beginning of a measurement, not one."""
    reading = read(text, SIDE, language=language)
    assert (reading.outcome, reading.reason) == (Outcome.ASK, Reason.HEDGED)


def test_a_length_that_describes_a_frame_is_no_count() -> None:
    """`363 frame` and `36 cm frame` are lengths with a word nobody asked for."""
    for text, value in (("363 frame", 363), ("36.3 cm frame", 363)):
        reading = read(text, SIDE)
        assert (reading.outcome, reading.values) == (Outcome.PROPOSE, (Fraction(value),))


def test_the_longest_text_that_is_read_is_the_limit() -> None:
    """One sign more and it is a letter."""
    assert read("363".ljust(LONGEST), SIDE).outcome is Outcome.TAKE
    assert read("363".ljust(LONGEST + 1), SIDE).reason is Reason.DIGITS_PLEASE


@pytest.mark.parametrize("text", ["not 363", "363?", "-363", "363 %", "36O", "363 mm blah"])
def test_an_unknown_word_or_sign_leaves_it_at_a_proposal(text: str) -> None:
    """Whatever nobody can place may change the meaning."""
    assert read(text, SIDE).outcome is Outcome.PROPOSE


def test_exactly_answers_the_precision_question_beforehand() -> None:
    """`exactly 36 cm` is taken as exact, to the millimetre."""
    for text, language in (("exactly 36 cm", "en"), ("36 cm dokładnie", "pl")):
        reading = read(text, SIDE, language=language)
        assert (reading.values, reading.exact, reading.step) == (
            (Fraction(360),),
            True,
            Fraction(1),
        )


def test_quotation_marks_round_a_number_are_no_inches() -> None:
    """ "18" in quotation marks is 18 of an unknown unit."""
    for text in ('"18"', "“18”", "'18'"):
        assert read(text, Measure.TOP_TO_BOTTOM).reason is Reason.WHICH_UNIT


@pytest.mark.parametrize(
    ("text", "reason"),
    [("Dadant", Reason.NAMED_SIZE), ("it is a Langstroth", Reason.NAMED_SIZE),
     ("fourteen and an eighth", Reason.DIGITS_PLEASE), ("", Reason.DIGITS_PLEASE),
     ("👍", Reason.DIGITS_PLEASE), ("9" * (LONGEST + 1), Reason.DIGITS_PLEASE)],
)  # fmt: skip
def test_without_digits_there_is_nothing_to_measure(text: str, reason: Reason) -> None:
    """A name of a frame is told apart from words; a letter is not searched for numbers."""
    reading = read(text, SIDE)
    assert (reading.outcome, reading.reason) == (Outcome.ASK, reason)


def test_a_pair_is_a_count_and_no_length() -> None:
    """Words for numbers are understood where pieces are counted."""
    assert read("a pair", Measure.PIECES, language="en").values == (Fraction(2),)
    assert read("a pair", SIDE, language="en").reason is Reason.DIGITS_PLEASE


def test_the_questions_that_follow_decide_where_numbers_belong() -> None:
    """With other questions after this one the second number is another answer."""
    default = read("375 395", Measure.INSIDE_ALONG)
    given_order = read("375 253", Measure.INSIDE_ALONG, following=(Measure.LEDGE_DOWN,))
    assert default.measures == (Measure.INSIDE_ALONG, Measure.LUG_ROOM)
    assert given_order.measures == (Measure.INSIDE_ALONG, Measure.LEDGE_DOWN)


def test_counts_that_follow_are_not_filled_from_lengths() -> None:
    """A second number is never a count of frames."""
    asked = (Measure.FRAMES_HELD,)
    assert read("253 10", Measure.LEDGE_DOWN, following=asked).reason is Reason.TWO_READINGS


def expect_consistent(reading: Reading, measure: Measure) -> None:
    """Fails where the parts of a reading contradict each other."""
    assert (reading.exact is None) == (reading.outcome is not Outcome.TAKE)
    if reading.outcome in {Outcome.ASK, Outcome.OTHER}:
        assert reading.reason is not None
        assert reading.values == ()
        return
    assert reading.reason is None
    assert reading.values
    assert len(reading.measures) in {0, len(reading.values)}
    if reading.outcome is Outcome.TAKE:
        assert len(reading.values) == 1
        assert band(measure).usual(reading.values[0])
    if measure not in COUNTS:
        assert reading.unit is not None
        assert reading.step is not None
        if reading.outcome is Outcome.PROPOSE:
            assert {option.value for option in reading.options} >= set(reading.values)


@given(
    st.one_of(st.text(max_size=80), st.text(TRICKY, max_size=30)),
    st.sampled_from(Measure),
    st.sampled_from((None, *LANGUAGES)),
    st.sampled_from((None, *Unit)),
)
def test_whatever_is_typed_gives_a_consistent_reading(
    text: str, measure: Measure, language: str | None, usual_unit: Unit | None
) -> None:
    """Nothing a person types raises, and what is taken is one usual value."""
    expect_consistent(read(text, measure, language=language, usual_unit=usual_unit), measure)


@pytest.mark.parametrize(
    "piece",
    ["9 ", "1/8 ", "1,", "1.1", "'", "½", "1/", "lol0", "+-", "(9", "ﷺ", "36 cm ", "'9a", "a'",
     "1m", "1m1cm1mm", "36-", "\ud800", "\x00"],
)  # fmt: skip
def test_long_tricky_texts_are_read_in_bounded_time(piece: str) -> None:
    """The longest text that is read at all, made of one trap, gives a reading."""
    text = (piece * LONGEST)[:LONGEST]
    expect_consistent(read(text, SIDE), SIDE)


def test_the_package_gives_what_its_users_need() -> None:
    """The names other rooms import are there, and go together."""
    reading = read("18", Measure.TOP_TO_BOTTOM)
    inches = Option(Fraction("457.2"), written(Fraction("457.2"), Unit.IN), Unit.IN)
    assert inches in reading.options
