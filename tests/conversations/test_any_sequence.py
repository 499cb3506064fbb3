"""Whatever happens in whatever order: the conversation holds, and what it keeps is true.

A person who types, taps, edits, replies and sends photos at random, a desk that acts at random,
and a clock that brings what is due and what is not. After every turn all of it is checked.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from fractions import Fraction

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, precondition, rule
from pydantic import TypeAdapter

from bot.presenter import Presenter
from conversations import reference
from conversations.answers import Outcome, Unit, read
from conversations.context import Context, OrderView
from conversations.effects import (
    Answered,
    Effect,
    OrderVersion,
    Remind,
    Say,
    StageMoved,
    Wipe,
)
from conversations.events import Choose, Desk, DeskVerb, Due, Edit, Event, Photo, Text, Voice
from conversations.locale import languages
from conversations.machine import advance
from conversations.review import CHANGEABLE, MOVES, Stage
from conversations.script import QUESTIONS, Kind
from conversations.session import Answer, Notebook, Session, load
from conversations.steps import Asker, Step
from conversations.turns.wishes import WISHES
from sizing.workshop import default_figures

EVENTS: TypeAdapter[Event] = TypeAdapter(Event)
LONGEST_MESSAGE = 4000
LONGEST_ID = 40
LINES_OF_A_QUESTION = 3
START = datetime(2026, 3, 2, 9, tzinfo=UTC)
WAYS_OUT = ("change", "later", "person", "start over", "help", "status", "repeat")

GOOD = {
    Step.LANGUAGE: "en", Step.PURPOSE: "isolate", Step.FRAME_NAME: "Wielkopolska",
    Step.SIDE_TO_SIDE: "360", Step.TOP_TO_BOTTOM: "260", Step.LUG_TO_LUG: "391",
    Step.LUG_THICKNESS: "10 mm", Step.WIDEST_WOOD: "35", Step.COMB_THICKNESS: "27",
    Step.INSIDE_ALONG: "375", Step.LUG_ROOM: "393", Step.LEDGE_DOWN: "253",
    Step.LEDGE_UP: "17 mm", Step.BELOW: "box", Step.BELOW_SPACE: "20 mm",
    Step.FRAMES_HELD: "10", Step.LUG_WIDTH: "25", Step.ABOVE: "box", Step.ABOVE_SPACE: "8 mm",
    Step.INSIDE_ACROSS: "375", Step.SPACING: "35", Step.FRAMES_OUT: "2", Step.SPACER: "pins",
    Step.LID: "auto", Step.MATERIAL: "galvanised", Step.PIECES: "2",
    Step.CONTACT: "anna@example.org",
}  # fmt: skip
TYPED = [
    "360", "36,1", "36 cm", "363 cm", "14 1/8", "14 1/2 in", "18", "0.7", "720 mm",
    "11 mm", "360x260", "360x260x391", "10 35 27 375 393 253 17", "about 360", "360 or 362",
    "inside 340", "390 without lugs", "1/3", "0", "-5", "99999999999999999999 mm", "1e400",
    "NaN", "½", "３６１", "10 frames", "two", "30", "a pair", "48291742", "482 917 42",
    "+48 555 010 099", "AZ", "Schweizerkasten", "no lugs", "Dadant", "idk", "I don't know",
    "nie wiem", "yes", "tak", "no", "1", "2", "exactly", "isolate", "Another box", "English",
    "Polski", "anna@example.org", "<b>36</b>", "{title}", "%s", "", " ", "\n\n", "/start",
    "/help", "/", "/@", "?", "???", "🐝", "a" * 600, "it is " * 80 + "363 mm", "\u202e363",
    "how", "later please", "somebody", "same as last time",
]  # fmt: skip
TEXTS = st.one_of(
    st.sampled_from(TYPED),
    st.sampled_from([*WISHES, *WAYS_OUT]),
    st.text(max_size=30),
    st.from_regex(r"\A[0-9]{1,4}([.,][0-9]{1,3})? ?(mm|cm|m|in|\")?\Z"),
)
ODD_CHOICES = {
    "yes", "no", "exactly", "insist", "other-value", "dont-know", "show-me", "hand-in",
    "option-1", "option-2", "option-99", "", "nothing-of-ours",
}  # fmt: skip
CHOICES = st.sampled_from(
    sorted(
        {choice for question in QUESTIONS.values() for choice in question.choices}
        | {step.value for step in Step}
        | {*WISHES, *languages()}
        | ODD_CHOICES
    )
)
K = st.one_of(st.none(), st.integers(-2, 80))
DUE = st.sampled_from(
    [
        "notebook-1", "notebook-2", "notebook-3", "notebook-end", "notebook-", "question-", "",
        "question-48291742-1", "question-48291742-2", "question-1-1", "nothing-of-ours",
    ]
)  # fmt: skip
MEASURES = st.one_of(st.none(), st.sampled_from([step.value for step in Step]), st.just("length"))
NOTES = st.sampled_from(["", " ", "Measure outside, please.", "<i>x</i>", "long " * 2000])


@dataclass
class World:
    """What one person's conversation needs around it, and what must hold after each turn."""

    session: Session = field(default_factory=lambda: Session(person="anna"))
    orders: dict[str, OrderView] = field(default_factory=dict)
    due: dict[str, datetime] = field(default_factory=dict)
    now: datetime = START
    messages: list[Say] = field(default_factory=list)
    payload: int = 482_917
    turns: int = 0

    @property
    def context(self) -> Context:
        """What the machine may look at now."""
        number = reference.complete(self.payload)
        while number is None:
            self.payload += 1
            number = reference.complete(self.payload)
        contact = "anna@example.org" if self.session.contact_known else None
        return Context(
            now=self.now, figures=default_figures(), next_number=number,
            orders=tuple(self.orders.values()), contact=contact,
        )  # fmt: skip

    def happening(self, kind: str, **fields: object) -> Event:
        """An event that happens now."""
        self.turns += 1
        self.now += timedelta(seconds=20)
        base = {"kind": kind, "id": str(self.turns), "person": "anna", "at": self.now}
        return EVENTS.validate_python({**base, **fields})

    def act(self, kind: str, **fields: object) -> None:
        """One turn, everything that must hold after it, and what it does to this world."""
        event = self.happening(kind, **fields)
        before, context = self.session, self.context
        after, effects = advance(before, event, context)
        check_session(before, after, effects, context)
        check_answers(before, after, effects, event)
        check_orders(effects, event, context)
        for effect in effects:
            if isinstance(effect, Say):
                check_message(effect)
        if not isinstance(event, Desk | Due):
            assert any(isinstance(one, Say) and one.to == "person" for one in effects), "silence"
        self.session = after
        for effect in effects:
            self.happen(effect)

    def happen(self, effect: Effect) -> None:
        """What an effect does outside the machine."""
        if isinstance(effect, Say) and effect.to == "person":
            self.messages.append(effect)
        elif isinstance(effect, OrderVersion | StageMoved):
            view = OrderView(effect.number, effect.version, effect.stage, self.now)
            if effect.number not in self.orders:
                self.payload += 1
            self.orders[effect.number] = view
        elif isinstance(effect, Remind):
            self.due[effect.what] = effect.at


# --- what must hold -------------------------------------------------------------------


def check_session(
    before: Session, after: Session, effects: tuple[Effect, ...], context: Context
) -> None:
    """It can be stored, it counts what was said, and it speaks of nothing that is not there."""
    assert load(after.model_dump_json()) == after
    heard = [one for one in effects if isinstance(one, Say) and one.to == "person"]
    assert after.heard_count - before.heard_count == len(heard)
    numbers = {order.number for order in context.orders}
    numbers |= {one.number for one in effects if isinstance(one, OrderVersion)}
    assert set(after.handed) <= numbers
    assert after.asking.number is None or after.asking.number in numbers
    assert {errand.number for errand in after.errands} <= numbers
    if after.asking.asker is Asker.DESK:
        asked = (after.asking.number, after.asking.step)
        assert asked in {(errand.number, errand.step) for errand in after.errands}


def check_answers(
    before: Session, after: Session, effects: tuple[Effect, ...], event: Event
) -> None:
    """Nothing stands in a notebook but what was taken or agreed to, and it is on record."""
    said = {(one.number, one.question): one.reading for one in effects if isinstance(one, Answered)}
    versions = (one for one in effects if isinstance(one, OrderVersion))
    handed_in = [one.number for one in versions if one.version == 1]
    thrown = before.thrown.answers if before.thrown else {}
    for number in (None, *after.handed):
        source = None if number in handed_in else number
        old = notebook_of(before, source).answers
        for step, answer in notebook_of(after, number).answers.items():
            if answer in (old.get(step), thrown.get(step)):
                continue
            assert not isinstance(event, Desk | Due | Voice)
            if step is not Step.CONTACT:
                assert said.get((source, step.value)) == answer.value
            check_answer(before, step, answer, event)


def notebook_of(session: Session, number: str | None) -> Notebook:
    """The notebook being filled, or that of an order."""
    return session.notebook if number is None else session.handed.get(number, Notebook())


def check_answer(before: Session, step: Step, answer: Answer, event: Event) -> None:
    """A number comes from what was typed now and is clear, or was shown before and agreed to."""
    if QUESTIONS[step].kind not in (Kind.LENGTH, Kind.COUNT):
        assert answer.value
        return
    assert answer.value is not None
    value, asking = Fraction(answer.value), before.asking
    shown = value in asking.values and step in (asking.step, *asking.steps)
    if isinstance(event, Choose):
        assert shown, (step, value, event)
        assert event.of in (None, asking.k), "agreed to something older"
        return
    assert isinstance(event, Text | Edit | Photo)
    text = event.caption if isinstance(event, Photo) else event.text
    measure = step.measure
    assert measure is not None
    reading = read(
        text, measure, language=before.language,
        usual_unit=Unit(before.usual_unit) if before.usual_unit else None,
    )  # fmt: skip
    taken = reading.outcome is Outcome.TAKE and reading.values[0] == value
    assert (taken and reading.exact) or shown, (step, value, text)


def check_orders(effects: tuple[Effect, ...], event: Event, context: Context) -> None:
    """An order comes from handing in, one at a time; a stage moves only as the table says."""
    made = [one for one in effects if isinstance(one, OrderVersion)]
    assert len(made) <= 1
    for version in made:
        order = context.order(version.number)
        if order is None:
            assert (version.number, version.version) == (context.next_number, 1)
            assert version.stage == Stage.HANDED_IN
        else:
            assert version.version == order.version + 1
            assert order.stage in CHANGEABLE
            assert version.stage in (Stage.HANDED_IN, Stage.QUESTION_OUT)
        assert not isinstance(event, Desk | Due)
    moved = [one for one in effects if isinstance(one, StageMoved)]
    refused = any(isinstance(one, Say) and one.refused for one in effects)
    if not isinstance(event, Desk):
        assert moved == []
        return
    assert not refused or len(effects) == 1
    for move in moved:
        order = context.order(move.number)
        assert order is not None
        assert order.stage in MOVES[event.verb].source
        assert move.stage == MOVES[event.verb].target


def check_message(say: Say) -> None:
    """It can be said in every language, fits into one message, and its buttons into theirs."""
    for language in languages():
        message = Presenter().present(say.model_copy(update={"language": language}))
        assert message.text.strip()
        assert len(message.text) <= LONGEST_MESSAGE, message.text
        assert all(button.label.strip() for button in message.buttons)
    ids = [choice.id for choice in say.choices]
    assert len(set(ids)) == len(ids)
    assert all(0 < len(one) <= LONGEST_ID for one in ids)
    keys = [line.key for line in say.lines]
    if say.question in {step.value for step in QUESTIONS} and "ask.title" in keys:
        asked = [key for key in keys[keys.index("ask.title") :] if key != "ask.was"]
        assert len(asked) <= LINES_OF_A_QUESTION


# --- what may happen ------------------------------------------------------------------


class AnySequence(RuleBasedStateMachine):
    """Everything a person, the desk and the clock can do, in any order."""

    def __init__(self) -> None:
        super().__init__()
        self.world = World()

    @initialize(answered=st.integers(0, 24))
    def begin(self, answered: int) -> None:
        """She comes with nothing said, in the middle, at the read-back, or with an order."""
        for _ in range(answered):
            self.answer()

    def answer(self) -> None:
        """She answers well what is asked; at the read-back she hands in."""
        step = self.world.session.asking.step
        text = GOOD.get(step, "hand in" if step is Step.READ_BACK else "change")
        self.world.act("text", text=text)

    @rule(text=TEXTS, reply=K, hint=st.sampled_from([None, "pl-PL", "xx", ""]))
    def type(self, text: str, reply: int | None, hint: str | None) -> None:
        """She types anything, perhaps as a reply."""
        self.world.act("text", text=text, reply_to=reply, language_hint=hint)

    @rule(choice=CHOICES, of=K)
    def tap_anything(self, choice: str, of: int | None) -> None:
        """She taps something that may never have been offered."""
        self.world.act("choose", choice=choice, of=of)

    @precondition(lambda self: any(say.choices for say in self.world.messages))
    @rule(data=st.data(), newest=st.booleans())
    def tap_offered(self, data: st.DataObject, newest: bool) -> None:
        """She taps a button she has, of the newest message or of any."""
        offering = [(k, one) for k, one in enumerate(self.world.messages, 1) if one.choices]
        k, message = offering[-1] if newest else data.draw(st.sampled_from(offering))
        choice = data.draw(st.sampled_from([choice.id for choice in message.choices]))
        self.world.act("choose", choice=choice, of=k)

    @rule(text=TEXTS, k=K, kind=st.sampled_from(["edit", "photo", "voice"]))
    def send_otherwise(self, text: str, k: int | None, kind: str) -> None:
        """She edits a message she sent or did not send, sends a photo, or her voice."""
        if kind == "edit":
            self.world.act(kind, message=k or 0, text=text)
        elif kind == "photo":
            self.world.act(kind, photo="0" * 64, caption=text, reply_to=k)
        else:
            self.world.act(kind)

    @rule(most=st.integers(1, 6))
    def answer_well(self, most: int) -> None:
        """She answers what is asked, some questions running."""
        for _ in range(most):
            self.answer()

    @precondition(lambda self: self.world.session.asking.step.measure is not None)
    @rule(
        text=st.sampled_from(
            ["36 cm", "363 cm", "360x260", "0.7", "11 mm", "720 mm", "14 1/2 in", "about 36", "18"]
        ),
        choice=st.sampled_from(["yes", "no", "exactly", "option-1", "insist", "dont-know"]),
    )
    def answer_doubtfully(self, text: str, choice: str) -> None:
        """She answers so that she is asked back, and taps one of what may be offered then."""
        self.world.act("text", text=text)
        self.world.act("choose", choice=choice)

    @rule(
        verb=st.sampled_from(DeskVerb), version=st.one_of(st.none(), st.integers(-1, 4)),
        measure=MEASURES, note=NOTES, data=st.data(),
    )  # fmt: skip
    def desk(
        self, verb: DeskVerb, version: int | None, measure: str | None, note: str,
        data: st.DataObject,
    ) -> None:  # fmt: skip
        """The desk does anything with any order, also one that is not there."""
        number = data.draw(st.sampled_from([*self.world.orders, "48291742", "", "x"]))
        self.world.act(
            "desk", by="maria", verb=verb, number=number, version=version, measure=measure,
            note=note,
        )  # fmt: skip

    @precondition(lambda self: self.world.orders)
    @rule(
        verb=st.sampled_from([DeskVerb.ASK, DeskVerb.ASK, *MOVES]),
        measure=st.sampled_from(["side_to_side", "lug_room", "frames_held", "pieces", "lug_width"]),
        data=st.data(),
    )
    def desk_moves(self, verb: DeskVerb, measure: str, data: st.DataObject) -> None:
        """The desk does what can be done with an order as it stands."""
        order = data.draw(st.sampled_from(list(self.world.orders.values())))
        possible = [one for one, move in MOVES.items() if order.stage in move.source]
        self.world.act(
            "desk", by="maria", verb=verb if verb in possible else possible[0],
            number=order.number, version=order.version, measure=measure, note="Please.",
        )  # fmt: skip

    @rule(what=DUE)
    def due(self, what: str) -> None:
        """Something comes due, planned or not."""
        self.world.act("due", what=what)

    @precondition(lambda self: self.world.due)
    @rule()
    def planned(self) -> None:
        """The next thing that is planned comes due."""
        what = min(self.world.due, key=self.world.due.__getitem__)
        self.world.now = max(self.world.now, self.world.due.pop(what))
        self.world.act("due", what=what)

    def teardown(self) -> None:
        """Wherever it ended, each way out still leads somewhere, and so does the way on."""
        for wish in WAYS_OUT:
            side = World(
                session=self.world.session, orders=dict(self.world.orders), now=self.world.now,
                payload=self.world.payload,
            )  # fmt: skip
            side.act("text", text=wish)
            side.act("text", text="carry on")
            assert side.session.asking.step in (*QUESTIONS, Step.READ_BACK, Step.RESTING)


AnySequence.TestCase.settings = settings(
    derandomize=True, deadline=None, max_examples=120, stateful_step_count=40,
    suppress_health_check=list(HealthCheck),
)  # fmt: skip


class TestAnySequence(AnySequence.TestCase):  # type: ignore[misc,valid-type]
    """The checks above after every turn of every sequence."""


def test_a_text_of_the_person_is_never_markup() -> None:
    """What somebody typed as a name comes back with its signs, not as a tag."""
    world = World()
    for text in ("hello", "en", "isolate", "<b>Dadant</b>"):
        world.act("text", text=text)
    html = Presenter().present(world.messages[-1]).html
    assert "&lt;b&gt;Dadant" in html
    assert "<b>Dadant" not in html


def test_a_thrown_away_notebook_is_wiped_with_the_first_new_answer() -> None:
    """Until then it can be brought back, afterwards nothing of it is left."""
    world = World()
    for text in ("hello", "en", "isolate", "Dadant", "420", "start over"):
        world.act("text", text=text)
    assert world.session.thrown is not None
    event = world.happening("text", text="introduce")
    session, effects = advance(world.session, event, world.context)
    assert session.thrown is None
    assert Wipe() in effects
    assert "420" not in session.model_dump_json()
