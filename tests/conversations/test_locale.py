"""The catalogues: complete, alike in every language, and short enough for a phone."""

from __future__ import annotations

import gettext
import re
from collections.abc import Iterator
from datetime import UTC, datetime
from itertools import chain
from pathlib import Path
from string import Formatter
from typing import NamedTuple

import pytest
from babel import Locale
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po

import conversations.locale
from conversations.answers import Outcome, Reason, read
from conversations.context import Context
from conversations.effects import Line, Say, TextKey
from conversations.events import Text
from conversations.locale import catalogue, languages
from conversations.machine import advance
from conversations.script import QUESTIONS, Kind
from conversations.session import Asking, Session
from conversations.steps import Step
from conversations.turns import wishes
from sizing.measures import Measure
from sizing.workshop import default_figures

FOLDER = Path(conversations.locale.__file__).parent
LONGEST = 240
"""A message of more letters is not read at the hive; summaries and help may be longer."""
MAY_BE_LONG = ("read_back.", "help.", "wish.")
LABEL = 40
"""A button of more letters is cut off on a phone."""
TAG = re.compile(r"<[^>]*>|&\w+;")
MANY = 200
CLDR_ORDER = ("zero", "one", "two", "few", "many", "other")
NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)

KINDRED = {
    "help": Reason.HELP,
    "repeat": Reason.HELP,
    "later": Reason.LATER,
    "person": Reason.PERSON,
}
"""Wishes which the reading of an answer knows as well, by the reason it gives."""


class Entry(NamedTuple):
    """One text as it stands in its file; a text with a count has several forms."""

    language: str
    file: str
    key: str
    forms: tuple[str, ...]


def files() -> list[Path]:
    """Every file of texts."""
    return sorted(FOLDER.glob("*/*.po"))


def parsed(path: Path) -> Catalog:
    """A file as Babel reads it."""
    with path.open("rb") as source:
        return read_po(source, locale=path.parent.name, abort_invalid=True)


def entries(language: str | None = None) -> Iterator[Entry]:
    """All texts, or those of one language."""
    for path in files():
        if language in (None, path.parent.name):
            for message in parsed(path):
                if message.id:
                    key = message.id if isinstance(message.id, str) else message.id[0]
                    string = message.string
                    forms = (string,) if isinstance(string, str) else tuple(string or ("",))
                    yield Entry(path.parent.name, path.name, key, forms)


def holes(text: str) -> set[str]:
    """The names of the values that go into a text."""
    return {name for _, name, _, _ in Formatter().parse(text) if name is not None}


def wish_words() -> Iterator[tuple[str, str, str]]:
    """Language, wish and word of all words that name a wish."""
    for language in languages():
        for key in sorted(catalogue(language).keys()):
            if key.startswith("wish."):
                for word in catalogue(language).text(key).split("|"):
                    yield language, key.removeprefix("wish."), word


def test_there_is_english_and_polish() -> None:
    """English comes first, and a whole conversation can be held in Polish."""
    assert languages()[0] == "en"
    assert "pl" in languages()
    assert catalogue("pl").text("choice.yes") == "Tak"


def test_an_unknown_language_is_a_key_error() -> None:
    """There is no text in a language without a folder, and none under an unknown key."""
    with pytest.raises(KeyError):
        catalogue("xx")
    with pytest.raises(KeyError):
        catalogue("en").text("no.such.key")


@pytest.mark.parametrize("language", languages())
def test_a_language_has_the_keys_of_english_in_the_same_files(language: str) -> None:
    """Translators find each text in the file of the same name; none is missing or left over."""
    there = {(entry.file, entry.key) for entry in entries(language)}
    assert there == {(entry.file, entry.key) for entry in entries("en")}


def test_a_key_stands_once_and_has_a_text() -> None:
    """No text is empty, and no key stands in two files of a language."""
    found = [(entry.language, entry.key) for entry in entries()]
    assert len(found) == len(set(found))
    assert [entry for entry in entries() if not all(entry.forms)] == []


def test_the_same_values_go_into_a_text_in_every_language() -> None:
    """Each form of a text names the values that the English text names."""
    english = {entry.key: holes(entry.forms[0]) for entry in entries("en")}
    wrong = [
        (entry.language, entry.key, form)
        for entry in entries()
        for form in entry.forms
        if holes(form) != english[entry.key]
    ]
    assert wrong == []


def test_only_bold_and_italic_are_marked_and_both_are_closed() -> None:
    """A text holds the tags b and i, each closed before the next, and nothing else of HTML."""
    wrong = []
    for entry in entries():
        for form in entry.forms:
            tags = TAG.findall(form)
            pairs = list(zip(tags[::2], tags[1::2], strict=False))
            closed = all(pair in (("<b>", "</b>"), ("<i>", "</i>")) for pair in pairs)
            if not closed or len(tags) % 2 or {"<", ">"} & set(TAG.sub("", form)):
                wrong.append((entry.language, entry.key))
    assert wrong == []


def test_texts_are_tidy() -> None:
    """A text is one line without spaces at its ends or two in a row, and with one apostrophe."""
    untidy = re.compile(r"^\s|\s$|\s\s|[\n\t]|’|\.\.\.")
    assert [entry for entry in entries() if any(map(untidy.search, entry.forms))] == []


@pytest.mark.parametrize("path", files(), ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_the_plural_rule_of_a_file_is_that_of_its_language(path: Path) -> None:
    """The header chooses, for every count, the form which CLDR has for the language."""
    catalog, rule = parsed(path), Locale.parse(path.parent.name).plural_form
    names = [rule(n) for n in range(MANY + 1)]
    used = [name for name in CLDR_ORDER if name in names]
    choose = gettext.c2py(catalog.plural_expr)
    assert catalog.num_plurals == len(used)
    assert [choose(n) for n in range(MANY + 1)] == [used.index(name) for name in names]


@pytest.mark.parametrize("language", languages())
def test_a_count_brings_the_form_that_goes_with_it(language: str) -> None:
    """What `plural` gives for 0 to 200 is the form CLDR names, of all texts that have a count."""
    rule = Locale.parse(language).plural_form
    used = [name for name in CLDR_ORDER if name in {rule(n) for n in range(MANY + 1)}]
    counted = [entry for entry in entries(language) if catalogue(language).is_plural(entry.key)]
    assert counted
    for entry in counted:
        assert len(entry.forms) == len(used)
        for n in range(MANY + 1):
            assert catalogue(language).plural(entry.key, n) == entry.forms[used.index(rule(n))]


def test_polish_counts_cages_as_poles_do() -> None:
    """1 izolator, 2 izolatory, 5 izolatorów, 12 izolatorów, 22 izolatory."""
    said = {n: catalogue("pl").plural("read_back.pieces", n) for n in (1, 2, 5, 12, 22)}
    ends = {n: text.removesuffix("</b>").rpartition(" ")[2] for n, text in said.items()}
    assert ends == {
        1: "izolator", 2: "izolatory", 5: "izolatorów", 12: "izolatorów", 22: "izolatory",
    }  # fmt: skip


def test_texts_are_short() -> None:
    """No text is longer than can be read at the hive."""
    long = [
        (entry.language, entry.key, len(form))
        for entry in entries()
        if not entry.key.startswith(MAY_BE_LONG)
        for form in entry.forms
        if len(TAG.sub("", form)) > LONGEST
    ]
    assert long == []


def test_labels_are_short() -> None:
    """The words on a button fit on it."""
    choices = re.compile(r"(?:\w+\.)?choice\.[\w-]+")
    long = [
        (entry.language, entry.key)
        for entry in entries()
        if choices.fullmatch(entry.key) and len(entry.forms[0]) > LABEL
    ]
    assert long == []


# --- questions ------------------------------------------------------------------------


def asked(language: str, step: Step) -> Say:
    """The question of `step` as it is put when the person wants it repeated."""
    session = Session(
        person="anna", language=language, language_chosen=True, greeted=True,
        asking=Asking(step=step),
    )  # fmt: skip
    event = Text(id="1", person="anna", at=NOW, text="/repeat")
    context = Context(now=NOW, figures=default_figures(), next_number="48291742")
    _, effects = advance(session, event, context)
    return next(effect for effect in effects if isinstance(effect, Say))


def put_in(language: str, line: Line) -> str:
    """A line with the texts that go into it."""
    values = {
        name: catalogue(language).text(value.key)
        for name, value in line.values.items()
        if isinstance(value, TextKey)
    }
    return TAG.sub("", catalogue(language).text(line.key)).format(**values)


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("step", [step for step in QUESTIONS if step is not Step.LANGUAGE])
def test_a_question_has_at_most_three_short_lines(language: str, step: Step) -> None:
    """Title, from where to where, an example: three lines, together short enough to be read."""
    lines = [put_in(language, line) for line in asked(language, step).lines]
    assert lines[0] == catalogue(language).text(f"{step.value}.title")
    assert len(lines) <= 3
    assert sum(map(len, lines)) <= LONGEST


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize(
    "step", [step for step, question in QUESTIONS.items() if question.kind is Kind.LENGTH]
)
def test_an_example_is_itself_an_answer(language: str, step: Step) -> None:
    """Each length in the example of a question is taken as it stands when it is sent."""
    example = catalogue(language).text(f"{step.value}.example")
    lengths = re.findall(r"\d+(?:[.,]\d+)?(?: \d+/\d+|/\d+)? (?:mm|cm|in)\b", example)
    assert len(lengths) >= 2
    readings = [read(text, Measure(step.value), language=language) for text in lengths]
    assert [reading.outcome for reading in readings] == [Outcome.TAKE] * len(lengths)


# --- wishes ---------------------------------------------------------------------------


def test_a_word_names_one_wish_in_all_languages() -> None:
    """The words of all languages are understood at once, so none may mean two things."""
    meanings: dict[str, set[str]] = {}
    for _, name, word in wish_words():
        meanings.setdefault(word.casefold(), set()).add(name)
    assert {word: names for word, names in meanings.items() if len(names) > 1} == {}


def test_every_wish_is_understood_when_it_is_typed() -> None:
    """Each word leads to its wish, in capital letters and with a full stop as well."""
    for _, name, word in wish_words():
        for typed in (word, word.upper(), f" {word} " if word == "?" else f" {word}."):
            found = "no-lugs" if wishes.says_no_lugs(typed) else wishes.named(typed)
            assert (typed, found) == (typed, name)


def test_a_wish_is_also_understood_without_its_accents() -> None:
    """Whoever types without Polish letters is understood as well."""
    bare = str.maketrans("ąćęłńóśźż", "acelnoszz")
    words = {(name, word) for language, name, word in wish_words() if language == "pl"}
    wished = {(name, word) for name, word in words if name in wishes.WISHES}
    assert {name for name, word in wished if wishes.named(word.translate(bare)) != name} == set()
    assert all(
        wishes.says_no_lugs(word.translate(bare)) for name, word in words if name == "no-lugs"
    )


def test_the_words_that_help_names_are_understood() -> None:
    """What the help tells people to write is what is understood, in the order of English."""
    said = {}
    for language in languages():
        listed = catalogue(language).text("help.words").partition(": ")[2].partition(".")[0]
        said[language] = [wishes.named(word) for word in listed.split(" · ")]
    assert None not in said["en"]
    assert all(names == said["en"] for names in said.values())


def test_every_word_that_is_told_to_be_written_is_understood() -> None:
    """Where a text says to write a word in quotes, that word is a wish or a button."""
    labels = {
        entry.forms[0].casefold()
        for entry in entries()
        if re.fullmatch(r"(\w+\.)?choice\.[\w-]+", entry.key)
    }
    told = [
        (entry.key, word)
        for entry in entries()
        for word in chain.from_iterable(re.findall(r"[“„](\w[^“”„{}]*)”", f) for f in entry.forms)
        if not entry.key.startswith(("frame_name.", "clarify.hedged"))
    ]
    assert told
    strange = [
        (key, word)
        for key, word in told
        if wishes.named(word) is None and word.casefold() not in labels
    ]
    assert strange == []


def test_no_wish_is_an_ordinary_answer() -> None:
    """A word that names a wish is neither a length nor a count nor another kind of answer."""
    taken = []
    for language, name, word in wish_words():
        for measure in (Measure.SIDE_TO_SIDE, Measure.FRAMES_HELD):
            reading = read(word, measure, language=language)
            other = reading.reason if reading.outcome is Outcome.OTHER else None
            if reading.values or other not in (None, KINDRED.get(name)):
                taken.append((word, reading))
    assert taken == []


def test_no_wish_is_the_label_of_an_answer() -> None:
    """Whoever types the words on a button that answers a question gives that answer."""
    answers = ("dont-know", "show-me", "yes", "no", "hand-in", "insist", "other-value")
    keys = [f"choice.{identity}" for identity in answers] + [
        f"{step.value}.choice.{choice}"
        for step, question in QUESTIONS.items()
        for choice in question.choices
    ]
    labels = {catalogue(each).text(key) for each in languages() for key in keys}
    labels |= {catalogue(each).text("language.self") for each in languages()}
    assert {label for label in labels if wishes.named(label) is not None} == set()
