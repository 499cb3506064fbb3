"""What reading one answer can come to."""

from __future__ import annotations

from conversations.answers.outcome import Outcome, Reason, ask, other


def test_a_question_carries_no_value() -> None:
    """What is asked or is no measurement has a reason and nothing that could be recorded."""
    for reading in (ask(Reason.HEDGED), other(Reason.LATER)):
        assert reading.values == ()
        assert reading.exact is None
        assert reading.reason is not None


def test_asking_and_other_are_two_outcomes() -> None:
    """A measurement to be cleared up is told apart from a text that is none."""
    assert ask(Reason.HEDGED).outcome is Outcome.ASK
    assert other(Reason.LATER).outcome is Outcome.OTHER
