"""What a notebook comes to: the request, the cage, the read-back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from bot.presenter import Presenter
from conversations.effects import Say
from conversations.locale import languages
from conversations.session import Answer, Notebook
from conversations.steps import Step
from conversations.summary import design_of, lid_between_walls, read_back, request_of
from sizing.measures import Below, LidChoice, Material, Purpose, Spacer
from sizing.workshop import Figures, default_figures

FIGURES = default_figures()
Given = Callable[..., Answer]


def with_answers(notebook: Notebook, **given: Answer | None) -> Notebook:
    """The notebook with some answers replaced, or taken out where None is given."""
    answers = {**notebook.answers, **{Step(name): one for name, one in given.items() if one}}
    left = {step: one for step, one in answers.items() if given.get(step.value, one) is not None}
    return notebook.model_copy(update={"answers": left})


def shown(
    notebook: Notebook,
    language: str = "en",
    contact: str | None = None,
    figures: Figures = FIGURES,
) -> str:
    """The read-back as the person sees it."""
    lines = read_back(notebook, figures, contact=contact)
    return Presenter().present(Say(lines=lines, language=language)).text


def test_a_full_notebook_makes_the_request_of_its_answers(notebook: Notebook) -> None:
    """Each answer where it belongs, what is not asked at its default."""
    request = request_of(notebook)
    assert request is not None
    assert request.purpose is Purpose.ISOLATE
    assert request.frame.side_to_side.value == 360
    assert request.hive.ledge_down is not None
    assert request.hive.ledge_down.value == 253
    assert (request.hive.below, request.hive.frames_held) == (Below.BOX, 10)
    assert (request.lid, request.material, request.pieces) == (
        LidChoice.AUTO, Material.GALVANISED, 1,
    )  # fmt: skip
    assert request.hive.lug_room is not None
    assert request.frame.lug_width is None
    assert request.hive.below_space is None


def test_resolution_and_tolerance_go_with_the_length(notebook: Notebook, answer: Given) -> None:
    """How sure a length is, is worked out from them."""
    typed = answer("1437/4", step=Fraction(127, 80), plus_minus=Fraction(2))
    request = request_of(with_answers(notebook, side_to_side=typed))
    assert request is not None
    assert request.frame.side_to_side.readings == (Fraction(1437, 4),)
    assert request.frame.side_to_side.step == Fraction(127, 80)
    assert request.frame.side_to_side.plus_minus == 2


@pytest.mark.parametrize("name", ["purpose", "side_to_side", "top_to_bottom", "lug_to_lug"])
def test_without_what_is_needed_there_is_no_request(
    notebook: Notebook, answer: Given, name: str
) -> None:
    """Neither where it was not asked yet nor where nobody knows."""
    for given in (None, answer(None)):
        lacking = with_answers(notebook, **{name: given})
        assert request_of(lacking) is None
        assert design_of(lacking, FIGURES) is None
        assert lid_between_walls(lacking, FIGURES) is False


def test_what_was_changed_in_the_read_back_is_in_the_request(
    notebook: Notebook, answer: Given
) -> None:
    """Spacer, lid, sheet, pieces and places given up."""
    changed = with_answers(
        notebook, spacer=answer("pins"), lid=answer("end-open"),
        material=answer("aluminium-zinc"), pieces=answer("3"), frames_out=answer("4"),
    )  # fmt: skip
    request = request_of(changed)
    assert request is not None
    assert (request.hive.spacer, request.hive.frames_out) == (Spacer.PINS, 4)
    assert (request.lid, request.material) == (LidChoice.END_OPEN, Material.ALUMINIUM_ZINC)
    assert request.pieces == 3


def test_the_lid_goes_between_the_walls_where_the_rise_is_low(
    notebook: Notebook, answer: Given
) -> None:
    """Below a rise of 3.9 mm nothing fits above the lugs."""
    assert not lid_between_walls(notebook, FIGURES)
    assert lid_between_walls(with_answers(notebook, ledge_up=answer("13")), FIGURES)
    assert not lid_between_walls(with_answers(notebook, ledge_up=answer("14")), FIGURES)


def test_the_read_back_shows_every_answer_and_what_was_taken(notebook: Notebook) -> None:
    """With the number as it was typed where that differs, and what comes of it."""
    text = shown(with_answers(notebook, below_space=None))
    for piece in ("Wielkopolska", "360 mm", "anna@example.org", "Galvanised steel", "1 cage",
                  "7 mm (taken from a box of the same kind)", "370 mm along"):  # fmt: skip
        assert piece in text
    assert "you wrote" not in text


def test_what_was_typed_otherwise_is_shown_beside_it(notebook: Notebook, answer: Given) -> None:
    """On one line, and not more of it than a line holds."""
    letter = "it is\n" * 80 + "36,3"
    text = shown(with_answers(notebook, side_to_side=answer("363", raw=letter)))
    (line,) = (one for one in text.splitlines() if "363 mm" in one)
    assert "you wrote it is it is" in line
    assert len(line) < 120


def test_what_is_open_is_said_and_a_missing_name_is_not(notebook: Notebook) -> None:
    """Nobody will ask for the name of a frame."""
    lacking = with_answers(notebook, comb_thickness=None, frame_name=None)
    parked = (Step.COMB_THICKNESS, Step.FRAME_NAME)
    text = shown(lacking.model_copy(update={"parked": parked}))
    assert "Comb thickness: not known yet" in text
    assert "Name of the frame" not in text


def test_a_cage_that_would_not_work_says_where(notebook: Notebook, answer: Given) -> None:
    """The gap that fails is named with its length."""
    text = shown(with_answers(notebook, inside_along=answer("362")))
    assert "it would not work" in text
    assert "hive wall, -2 mm" in text


def test_the_contact_of_an_earlier_order_is_shown(notebook: Notebook) -> None:
    """It was not asked again, but it can be wrong."""
    text = shown(with_answers(notebook, contact=None), contact="anna@example.net")
    assert "anna@example.net" in text


def test_every_language_reads_everything_back(notebook: Notebook, answer: Given) -> None:
    """Also an empty notebook, a full one, and one with every question answered."""
    full = with_answers(
        notebook, below=answer("floor"), above=answer("cover"), spacer=answer("loose"),
        lid=answer("closed-between-walls"), pieces=answer("22"), lug_width=answer("25"),
        below_space=answer("20"), above_space=answer("8"), inside_across=answer("375"),
        spacing=answer("35"), frames_out=answer("3"),
    )  # fmt: skip
    for language in languages():
        texts = [shown(one, language) for one in (Notebook(), notebook, full)]
        assert all(texts)
        assert "22" in texts[2]


@pytest.mark.parametrize("language", languages())
def test_a_price_is_told_only_where_the_workshop_does(
    notebook: Notebook, answer: Given, language: str
) -> None:
    """About so much, for all pieces and the post; silent as built in and where nothing is made."""
    asking = replace(FIGURES, price_shown=True, price_cage=Fraction(20), price_post=Fraction(6))
    told = {
        "en": "Price: about €26.00 with €6.00",
        "pl": "Cena: około 26,00\u00a0€, w tym wysyłka 6",
    }
    assert told[language] in shown(notebook, language, figures=asking)
    word = told[language].split()[0]
    assert word not in shown(notebook, language)
    assert word in shown(notebook, language, figures=replace(asking, price_post=Fraction(0)))
    jams = with_answers(notebook, inside_along=answer("361"))
    assert word not in shown(jams, language, figures=asking)
