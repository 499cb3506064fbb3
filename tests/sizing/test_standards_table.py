"""The essence of the table: honest orders for known frames come out `make`."""

from __future__ import annotations

import pytest
from standards_table import COLUMNS, show, table

from sizing.cage import Design, Verdict, design_cage
from sizing.measures import Purpose, Tape


def joints(designs: list[Design]) -> list[float]:
    """Their joints; each is known."""
    found = [design.fit.probability for design in designs]
    assert None not in found
    return [one for one in found if one is not None]


EXPECTED = {
    (Purpose.ISOLATE, Tape.II, 1): (0.955, 0.998),
    (Purpose.ISOLATE, Tape.II, 2): (0.976, 0.9995),
    (Purpose.ISOLATE, Tape.III, 1): (0.914, 0.994),
    (Purpose.ISOLATE, Tape.III, 2): (0.942, 0.997),
    (Purpose.INTRODUCE, Tape.II, 1): (0.947, 0.998),
    (Purpose.INTRODUCE, Tape.II, 2): (0.976, 0.9995),
    (Purpose.INTRODUCE, Tape.III, 1): (0.865, 0.994),
    (Purpose.INTRODUCE, Tape.III, 2): (0.909, 0.997),
}
"""Where the joints of known frames in their own hives lie."""


@pytest.mark.parametrize("purpose", Purpose)
def test_known_frames_in_their_own_hives_are_as_sure_as_expected(purpose: Purpose) -> None:
    """No must fails, none is refused, and the joints lie where they were worked out to lie."""
    rows = table(purpose)
    assert len(rows) >= 30
    for place, (tape, count) in enumerate(COLUMNS):
        designs = [designs[place] for _, designs in rows]
        assert Verdict.CANNOT not in {design.verdict for design in designs}
        low, high = EXPECTED[purpose, tape, count]
        found = joints(designs)
        assert low <= min(found), (tape, count, min(found))
        assert max(found) <= high, (tape, count, max(found))


def test_honest_orders_are_made_but_for_introduction_with_the_widest_tape() -> None:
    """Only there is something asked, and a finer tape or one more look settles all but few."""
    for purpose in Purpose:
        for _, designs in table(purpose):
            for (tape, count), design in zip(COLUMNS, designs, strict=True):
                if (purpose, tape, count) != (Purpose.INTRODUCE, Tape.III, 1):
                    assert design.verdict is Verdict.MAKE


def test_an_unknown_tape_asks_for_what_settles_it() -> None:
    """Introduction, read once with any tape: whatever is asked, the tape's class settles."""
    from own_hives import orders

    asked = [
        design
        for _, order in orders(Purpose.INTRODUCE, Tape.UNKNOWN, 1)
        if (design := design_cage(order)).verdict is Verdict.ASK
    ]
    assert 0 < len(asked) < 25
    for design in asked:
        assert {"second-reading", "tape-class"} & {str(way.id) for way in design.would_work}
        assert design.fit.measure_again is not None


def test_the_table_prints(capsys: pytest.CaptureFixture[str]) -> None:
    """One line a kind for each purpose."""
    show()
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) == 2 * (len(table(Purpose.ISOLATE)) + 2)
