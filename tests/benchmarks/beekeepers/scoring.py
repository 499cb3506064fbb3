"""What came of one order, and of many: counts, 95 % intervals, tables."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from math import sqrt

from beekeepers.faults import BODY
from beekeepers.hanging import failures
from beekeepers.person import Person
from beekeepers.talk import Talk, held

from sizing.cage import Design, Verdict, design_cage
from sizing.measures import Below, Frame, Hive, Length, Measure, Purpose, Request
from sizing.plausibility.findings import Severity
from sizing.plausibility.mistakes import Mistake
from sizing.plausibility.mixups import HARMLESS
from sizing.plausibility.ranges import band

__all__ = ["Result", "judge", "share", "wilson"]

Z = 1.96
REPAIRED = 3.0
"""A final value this near the honest one has lost its fault [mm]."""
_FRAME = ("side_to_side", "top_to_bottom", "lug_to_lug", "lug_thickness", "widest_wood", "comb_thickness")  # fmt: skip  # noqa: E501


@dataclass(frozen=True)
class Result:
    """One order.

    `rounds_to`: the person's step [mm], 0 for inches. `caught` names how the fault was noticed:
    `reading` or `question` (it was put right in the talk), `finding` (the desk sees a doubt
    about this very answer), `fit` (the cage cannot be made, and could without the fault); none
    where it was not. `right_first`: whether the first suspicion was the right one; None where
    the reading saw it or nothing was weighed. `misfit`: the musts that fail through the fault,
    though nothing was doubted.
    """

    faults: tuple[str, ...]
    kind: str
    rounds_to: int
    error: float
    caught: tuple[str, ...]
    right_first: bool | None
    misfit: tuple[str, ...]
    hangs: bool
    in_range_only: bool
    range_misfit: bool
    messages: int
    suspicions: int
    readings: int
    precisions: int
    agains: int
    surer: int
    desk_findings: tuple[str, ...]
    verdict: str | None
    unknown: tuple[str, ...]


def wilson(hits: int, of: int) -> tuple[float, float]:
    """The 95 % interval of a share (E. B. Wilson, 1927)."""
    if of == 0:
        return 0.0, 1.0
    share = hits / of
    middle = (share + Z * Z / (2 * of)) / (1 + Z * Z / of)
    half = Z / (1 + Z * Z / of) * sqrt(share * (1 - share) / of + Z * Z / (4 * of * of))
    return max(0.0, middle - half), min(1.0, middle + half)


def _typed_request(person: Person) -> Request:
    """The order as it was typed, with nothing asked back."""
    values: dict[str, Length | None] = {}
    for measure in (*_FRAME, *sorted(BODY), "below_space"):
        if measure in _FRAME or (person.hive and measure in BODY):
            values[measure] = Length((person.typed(measure, 0).mm,), Fraction(1))
    truth = person.truth
    if person.hive and truth.below == "floor":
        space = Fraction(round(truth.lengths["below_space"]))
        values["below_space"] = Length((space,), Fraction(1))
    frame = Frame(**{name: values[name] for name in _FRAME})  # type: ignore[arg-type]
    hive = Hive(
        **{name: values.get(name) for name in (*sorted(BODY), "below_space")},  # type: ignore[arg-type]
        below=Below(truth.below) if person.hive else None,
        frames_held=truth.frames_held if person.hive else None,
    )
    return Request(Purpose(truth.purpose), frame, hive)


def _spoilt(person: Person) -> set[str]:
    named = {measure for fault in person.faults for measure in fault.measures}
    return {measure for measure in named if abs(person.off(measure)) >= 1}


def _doubted(design: Design, spoilt: set[str]) -> bool:
    """Whether the desk sees a doubt about one of these answers."""
    return any(
        finding.severity is not Severity.NOTE and spoilt & set(finding.measures)
        for finding in design.findings
    )


def _final(talk: Talk, name: str) -> Fraction | None:
    """The length the order holds [mm]."""
    if talk.request is None:
        return None
    found = getattr(talk.request.frame, name, None) or getattr(talk.request.hive, name, None)
    return found.value if isinstance(found, Length) else None


def _honest_again(talk: Talk, name: str) -> Fraction:
    """What the same person would have typed without the fault, the last time it was typed."""
    return talk.person.honest().typed(name, max(0, talk.attempts[name] - 1)).mm


def _clean(talk: Talk, name: str) -> bool:
    """Whether the fault is out of this answer: it holds what was read without it, or nearly."""
    final = _final(talk, name)
    honest = talk.person.honest()
    read = (_honest_again(talk, name), honest.typed(name, 0).mm, honest.exact(name).mm)
    near = min(REPAIRED, abs(float(talk.person.off(name))) / 2)
    return final is not None and any(abs(float(final - one)) <= near for one in read)


def _caught(talk: Talk, design: Design | None, spoilt: set[str]) -> list[str]:
    """How the fault was noticed: put right in the talk, doubted at the desk, or not to be made."""
    found = []
    if all(_clean(talk, name) for name in spoilt):
        asked = {one.why for one in talk.asked if one.measure in spoilt or one.measure is None}
        found.append("question" if asked & {"suspicion", "again"} else "reading")
    if design is not None and _doubted(design, spoilt):
        found.append("finding")
    if design is not None and design.verdict is Verdict.CANNOT and not found:
        without = _without_the_fault(talk, spoilt)
        if without is not None and without.verdict is not Verdict.CANNOT:
            found.append("fit")
    return found


def _without_the_fault(talk: Talk, spoilt: set[str]) -> Design | None:
    """The cage of the same order with the honest readings of what was spoilt."""
    request = talk.request
    if request is None:
        return None
    for name in spoilt:
        if _clean(talk, name) or _final(talk, name) is None:
            continue
        part = "frame" if hasattr(request.frame, name) else "hive"
        old = getattr(request, part)
        length = replace(getattr(old, name), readings=(_honest_again(talk, name),))
        request = replace(request, **{part: replace(old, **{name: length})})
    return None if request == talk.request else design_cage(request)


def _misfit(talk: Talk, design: Design, spoilt: set[str]) -> tuple[str, ...]:
    """The musts that fail in the cage that is made, and would not have without the fault."""
    if _doubted(design, spoilt) or design.verdict is Verdict.CANNOT:
        return ()
    failing = failures(design, talk.person.truth)
    if not failing:
        return ()
    without = _without_the_fault(talk, spoilt)
    hung = without is not None and not failures(without, talk.person.truth)
    return tuple(failing) if hung else ()


def _range_checks_alone(person: Person, spoilt: set[str]) -> tuple[bool, bool]:
    """Whether a single value is out of its usual range; else whether the cage does not fit."""
    if any(not band(Measure(name)).usual(person.typed(name, 0).mm) for name in spoilt):
        return True, False
    design = design_cage(_typed_request(person))
    if design.verdict is Verdict.CANNOT or not failures(design, person.truth):
        return False, False
    honest = design_cage(_typed_request(person.honest()))
    return False, not failures(honest, person.truth)


MISTAKES = {
    "inside-length": Mistake.INSIDE, "inside-height": Mistake.INSIDE, "lugs-left-out": Mistake.LUGS,
    "lugs-included": Mistake.LUGS, "inch-as-cm": Mistake.UNIT, "ten-times": Mistake.TEN_TIMES,
    "exchanged": Mistake.EXCHANGED, "digits-swapped": Mistake.DIGITS_SWAPPED,
    "one-digit": Mistake.ONE_DIGIT, "comb-for-wood": Mistake.COMB,
    "not-from-zero": Mistake.NOT_FROM_ZERO, "tape-case": Mistake.TAPE_CASE,
    "outside-of-box": Mistake.OUTSIDE_OF_BOX, "hook-play": Mistake.HOOK_PLAY,
}  # fmt: skip
"""What the rules call each fault."""


def _right_first(talk: Talk, design: Design | None, spoilt: set[str]) -> bool | None:
    """Whether what was suspected first is what went wrong; None where nothing was weighed."""
    first = talk.first
    if first is None and design is not None:
        told = [weight for finding in design.findings for weight in finding.weights]
        first = next((weight for weight in told if weight.mistake not in HARMLESS), None)
    if first is None:
        return None
    return any(
        first.mistake is MISTAKES[fault.name] and spoilt & set(first.measures) & set(fault.measures)
        for fault in talk.person.faults
    )


def judge(person: Person) -> Result:
    """One order, from the first word to what would be made."""
    talk = held(person)
    spoilt = _spoilt(person)
    design = None if talk.request is None else design_cage(talk.request)
    misfit: tuple[str, ...] = ()
    in_range = range_misfit = False
    right_first: bool | None = None
    caught: list[str] = []
    if spoilt:
        caught = _caught(talk, design, spoilt)
        misfit = _misfit(talk, design, spoilt) if design is not None else ()
        if caught and caught[0] != "reading":
            right_first = _right_first(talk, design, spoilt)
        in_range, range_misfit = _range_checks_alone(person, spoilt)
    return Result(
        faults=tuple(fault.name for fault in person.faults), kind=person.truth.kind,
        rounds_to=person.step if person.unit != "in" else 0,
        error=person.error(), caught=tuple(caught), right_first=right_first, misfit=misfit,
        hangs=design is not None and not failures(design, person.truth),
        in_range_only=in_range, range_misfit=range_misfit,
        messages=talk.messages, suspicions=talk.extra("suspicion"),
        readings=talk.extra("reading"), precisions=talk.extra("precision"),
        agains=talk.extra("again"), surer=talk.extra("surer"),
        desk_findings=tuple(
            finding.code
            for finding in (design.findings if design else ())
            if finding.severity is not Severity.NOTE
        ),
        verdict=None if design is None else str(design.verdict), unknown=tuple(talk.unknown),
    )  # fmt: skip


def share(results: Iterable[bool]) -> str:
    """A share in percent with its 95 % interval."""
    seen = list(results)
    if not seen:
        return "-"
    low, high = wilson(sum(seen), len(seen))
    return f"{100 * sum(seen) / len(seen):5.1f} ({100 * low:.1f}–{100 * high:.1f})"
