"""Which turn it is: the first words, typed choices, replies, edits, photos, numbers."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

import pytest
from player import Player

from conversations.context import Context, OrderView
from conversations.effects import Answered, Contact, Journal, PhotoKept, Say
from conversations.events import Choose, Event, Photo, Text, Voice
from conversations.machine import advance
from conversations.session import Session
from conversations.steps import Step
from sizing.workshop import default_figures

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
START = "anna> hello\nanna> [en]\nanna> [isolate]\nanna> [dont-know]\n"
Play = Callable[[str], Player]
SessionOf = Callable[[Player], Session]


def first(event: Event) -> tuple[Session, Say]:
    """What the very first event makes."""
    context = Context(now=NOW, figures=default_figures(), next_number="48291742")
    session, effects = advance(Session(person="anna"), event, context)
    (said,) = effects
    assert isinstance(said, Say)
    return session, said


@pytest.mark.parametrize(
    "event",
    [
        Text(id="1", person="anna", at=NOW, text="360"),
        Choose(id="1", person="anna", at=NOW, choice="hand-in"),
        Photo(id="1", person="anna", at=NOW, photo="0" * 64),
        Voice(id="1", person="anna", at=NOW),
    ],
    ids=lambda event: event.kind,
)
def test_whatever_comes_first_the_language_is_asked(event: Event) -> None:
    """Nothing is taken before somebody can read what was taken."""
    session, said = first(event)
    assert said.question == "language"
    assert {"en", "pl"} <= {choice.id for choice in said.choices}
    assert session.asking.step is Step.LANGUAGE
    assert session.notebook.answers == {}


@pytest.mark.parametrize(
    ("hint", "language"), [("pl-PL", "pl"), ("pl", "pl"), ("xx", "en"), ("", "en"), (None, "en")]
)
def test_the_first_words_are_in_the_language_of_the_device(hint: str | None, language: str) -> None:
    """Where we speak it; otherwise in English."""
    _, said = first(Text(id="1", person="anna", at=NOW, text="hej", language_hint=hint))
    assert said.language == language


def test_nothing_changes_what_went_in(played: Play, filled: str, session_of: SessionOf) -> None:
    """The same session and event give the same result, however often."""
    player = played(filled)
    session = session_of(player)
    before = session.model_dump_json()
    context = Context(now=NOW, figures=default_figures(), next_number="48291742")
    event = Choose(id="1", person="anna", at=NOW, choice="hand-in")
    assert advance(session, event, context) == advance(session, event, context)
    assert session.model_dump_json() == before


@pytest.mark.parametrize("typed", ["isolate", "Only the queen", "ONLY THE QUEEN.", "1", " 1 "])
def test_a_choice_may_be_typed(played: Play, session_of: SessionOf, typed: str) -> None:
    """Its id, its words, or its place in the list."""
    session = session_of(played(f"anna> hello\nanna> [en]\nanna> {typed}\nanna? frame_name\n"))
    assert session.notebook.answers[Step.PURPOSE].value == "isolate"


@pytest.mark.parametrize("typed", ["0", "4", "99", "²", "queen"])
def test_what_is_no_choice_chooses_nothing(played: Play, session_of: SessionOf, typed: str) -> None:
    """A place outside the list, another sign, half of the words."""
    session = session_of(played(f"anna> hello\nanna> [en]\nanna> {typed}\nanna? purpose\n"))
    assert session.notebook.answers == {}


def test_the_place_in_a_list_counts_only_for_the_question_that_is_asked(
    played: Play, session_of: SessionOf
) -> None:
    """A number under a list of languages is still the answer to what is asked."""
    chat = START + "anna> 360x260x391\nanna> yes\nanna? lug_thickness\n"
    session = session_of(played(f"{chat}anna> language\nanna> 8 mm\nanna? widest_wood\n"))
    assert session.notebook.answers[Step.LUG_THICKNESS].value == "8"


def test_a_button_of_the_newest_message_may_be_typed_too(
    played: Play, session_of: SessionOf
) -> None:
    """The list of languages came last, so the name of one is no answer to the question."""
    player = played(f"{START}anna> language\nanna> Polski\nanna? side_to_side\n")
    assert session_of(player).language == "pl"


def test_an_order_number_is_looked_up_only_for_its_owner(played: Play, handed_in: str) -> None:
    """To anybody else it is a number like any other, and nothing is told."""
    player = played(
        handed_in
        + START.replace("anna", "bea")
        + "bea> 482 917 42\nbea? side_to_side\nbea< not: handed in\nbea< I know no order\n"
    )
    assert player.person("bea").orders == {}


def test_a_number_that_is_an_order_of_hers_is_never_a_length(
    played: Play, handed_in: str, session_of: SessionOf
) -> None:
    """In the middle of the next order."""
    chat = f"{handed_in}anna> new order\nanna> [isolate]\nanna> Dadant\n"
    player = played(f"{chat}anna> NUMBER\nanna< NUMBER: handed in\nanna? side_to_side\n")
    assert Step.SIDE_TO_SIDE not in session_of(player).notebook.answers


def test_a_photo_sent_after_handing_in_belongs_to_the_order(played: Play, handed_in: str) -> None:
    """It is not taken along into the next one."""
    effects = played(f"{handed_in}anna> (photo)\n").effects
    (kept,) = (one for one in effects if isinstance(one, PhotoKept))
    assert (kept.question, kept.number) == ("resting", "48291742")


def test_a_photo_belongs_to_the_question_it_replies_to(played: Play) -> None:
    """Not to the one that is asked meanwhile."""
    effects = played(f"{START}anna> 360\nanna? top_to_bottom\nanna> (photo) x\n").effects
    assert [one.question for one in effects if isinstance(one, PhotoKept)] == ["top_to_bottom"]


def test_no_way_to_reach_somebody_is_taken_from_under_a_photo(played: Play, filled: str) -> None:
    """Words under a photo are about the photo."""
    asked = filled.removesuffix("anna> anna@example.org\nanna? read_back\n")
    player = played(f"{asked}anna> (photo) my bees, 555 010 099\nanna? contact\n")
    assert not any(isinstance(one, Contact) for one in player.effects)


def test_an_edit_says_so_in_the_record(played: Play) -> None:
    """The desk sees that an answer was corrected."""
    effects = played(f"{START}anna> 356\nanna> (edit 2) 360\n").effects
    answers = [one for one in effects if isinstance(one, Answered)]
    assert [(one.raw, one.reading, one.how) for one in answers[-2:]] == [
        ("356", "356", "typed"),
        ("360", "360", "edited"),
    ]


def test_the_journal_holds_no_words_of_a_person(played: Play, handed_in: str) -> None:
    """Ids, codes and millimetres only: no name, no way to reach anybody."""
    effects = played(f"{handed_in}desk:maria> note: A friend of Bea.\nanna> (edit 3) 361\n").effects
    journal = " ".join(str(one) for one in effects if isinstance(one, Journal))
    assert "after='360'" in journal
    assert not any(word in journal for word in ("Wielkopolska", "anna@", "Bea"))


def test_a_button_of_the_notebook_means_its_order_once_it_is_one(
    played: Play, handed_in: str
) -> None:
    """A change tapped in the read-back after handing in is a change of that order."""
    player = played(f"{handed_in}anna> [material]\nanna> [aluminium-zinc]\norder< handed-in v2\n")
    assert player.person("anna").orders["48291742"].version == 2


def test_an_event_for_an_order_that_moved_meanwhile_does_no_harm(
    played: Play, handed_in: str, session_of: SessionOf
) -> None:
    """The session still knows a changeable order, the workshop has cleared it."""
    player = played(f"{handed_in}anna> change\nanna> [material]\nanna? material\n")
    context = Context(
        now=NOW, figures=default_figures(), next_number="48291839",
        orders=(OrderView("48291742", 1, "cleared", NOW),),
    )  # fmt: skip
    event = Text(id="x", person="anna", at=NOW, text="aluminium-zinc")
    _, effects = advance(session_of(player), event, context)
    assert "changed.too_late" in {
        line.key for one in effects if isinstance(one, Say) for line in one.lines
    }
