"""What a truthful person says to each separating question, and what that clears up.

A question shows what is meant; who answers it and sees that the tape lay elsewhere has
understood, and measures right from then on.
"""

from __future__ import annotations

from beekeepers.person import Person

__all__ = ["answer"]

ALIKE = 5.0
"""Lengths that differ by less look the same on a frame held up [mm]."""
LAY = {
    "inside-length": "between-wood", "inside-height": "opening", "comb-for-wood": "comb-alone",
    "lugs-left-out": "to-side-bars", "lugs-included": "over-lugs", "not-from-zero": "other-mark",
    "tape-case": "case-left-out", "outside-of-box": "outer-walls",
}  # fmt: skip
"""How the tape lay with each misunderstanding, by the choice that says so."""
AS_ASKED = {
    "side_to_side": "over-wood", "top_to_bottom": "all-wood", "lug_to_lug": "to-tips",
    "inside_along": "inner-walls", "lug_room": "to-stops", "ledge_down": "to-edge",
}  # fmt: skip


def answer(name: str, measure: str, person: Person, choices: tuple[str, ...]) -> str | None:
    """The choice this person taps; None where the question, about `measure`, is not known here."""
    if name == "longer":
        true = person.truth.lengths
        more = true["side_to_side"] - true["top_to_bottom"]
        return "same" if abs(more) < ALIKE else "along" if more > 0 else "down"
    if name == "marks":
        inch_side = any(f.name == "inch-as-cm" and measure in f.measures for f in person.faults)
        return "sixteen" if inch_side or person.unit == "in" else "ten"
    for fault in person.faults:
        if fault.slip or name not in fault.measures or fault.name in person.told:
            continue
        if (lay := LAY.get(fault.name)) in choices:
            person.told.add(fault.name)
            return lay
    return AS_ASKED.get(name)
