"""The workshop's own file of figures: what it may say, and what becomes of it."""

from __future__ import annotations

from dataclasses import fields, replace
from fractions import Fraction

import pytest

from sizing.data import table
from sizing.errors import FiguresError
from sizing.measures import GapName
from sizing.own_figures import own_figures
from sizing.workshop import default_figures

OWN = """
version = "spring"
[figure.allowance_along]
value = 9
unit = "mm"
[figure.end_sheet]
value = 1.0
unit = "mm"
[choice.makes_lid_between_walls]
value = false
[gap.hive_end]
aim_low = 2.5
unit = "mm"
"""


def test_what_the_file_names_is_used_and_the_rest_stays() -> None:
    """Four figures are other ones, exactly as written; all others are the built-in ones."""
    own, built_in = own_figures(OWN), default_figures()
    rule = replace(built_in.gaps[GapName.HIVE_END], aim_low=Fraction(5, 2))
    expected = replace(
        built_in, version=own.version, allowance_along=Fraction(9), end_sheet=Fraction(1),
        makes_lid_between_walls=False, gaps={**built_in.gaps, GapName.HIVE_END: rule},
    )  # fmt: skip
    for field in fields(own):
        assert getattr(own, field.name) == getattr(expected, field.name), field.name


def test_other_figures_are_never_under_the_same_version() -> None:
    """Forgetting to rename the version after a change does no harm; writing 9.0 for 9 is none."""
    first = own_figures(OWN).version
    assert first.startswith("spring-")
    assert own_figures(OWN.replace("value = 9", "value = 9.0")).version == first
    assert own_figures(OWN.replace("value = 9", "value = 8")).version != first
    assert own_figures('version = "1"').version != default_figures().version


WRONG = [
    # what is written instead of what, the figure that is named, the way out
    ("value = 9", "value = 40", "figure.allowance_along.value", "6 14 mm"),
    ("value = 9", "value = 0.9", "figure.allowance_along.value", "6 14 mm"),
    ("value = 9", 'value = "9"', "figure.allowance_along.value", "6 14 mm"),
    ("value = 9", "value = true", "figure.allowance_along.value", "6 14 mm"),
    ("value = 9", "value = nan", "figure.allowance_along.value", "6 14 mm"),
    ("value = 9\n", "", "figure.allowance_along.value", "6 14 mm"),
    ('value = 9\nunit = "mm"', "value = 9", "figure.allowance_along.unit", "one-of mm"),
    ('value = 9\nunit = "mm"', 'value = 9\nunit = "cm"', "figure.allowance_along.unit",
     "one-of mm"),
    ("figure.allowance_along", "figure.allowance", "figure.allowance", "a-figure-of-the-table"),
    ("figure.allowance_along", "figures.allowance_along", "figures",
     "one-of version figure choice gap"),
    ("value = false", "value = 0", "choice.makes_lid_between_walls.value", "one-of true false"),
    ("aim_low = 2.5", "aim_low = 0.5", "gap.hive_end", "must-below-aim"),
    ("aim_low = 2.5", "aim_low = 25", "gap.hive_end.aim_low", "0 20 mm"),
    ("aim_low = 2.5", "aim = 2.5", "gap.hive_end.aim", "one-of must_low aim_low unit"),
    ('version = "spring"', "", "version", "a-short-name"),
    ('version = "spring"', "version = 2", "version", "a-short-name"),
    ('version = "spring"', 'version = "a b"', "version", "a-short-name"),
    ('version = "spring"', "version = ", "file", "toml"),
]  # fmt: skip


@pytest.mark.parametrize(("written", "instead", "figure", "would_do"), WRONG)
def test_what_cannot_be_used_is_named_with_what_would_do(
    written: str, instead: str, figure: str, would_do: str
) -> None:
    """Each mistake is refused, and the error names the figure and the way out."""
    with pytest.raises(FiguresError) as refused:
        own_figures(OWN.replace(written, instead, 1))
    assert (refused.value.figure, refused.value.would_do) == (figure, would_do)


@pytest.mark.parametrize("kind", ["figure = 3", "[figure]\nrim = 5"])
def test_a_number_where_a_table_belongs_is_refused(kind: str) -> None:
    """A figure is never a bare number: it has no unit."""
    with pytest.raises(FiguresError) as refused:
        own_figures(f'version = "a"\n{kind}')
    assert refused.value.would_do == "a-table"


def test_the_wire_may_be_given_by_its_gauge() -> None:
    """With its series; a bare number, another figure by gauge and a far too thick wire are not."""
    wire = 'version = "a"\n[figure.wire_diameter]\ngauge = '
    assert own_figures(f'{wire}"SWG 14"').wire_diameter == Fraction("2.032")
    for wrong in ('"14"', "14", '"SWG 14"\nunit = "mm"', '"AWG 0"'):
        with pytest.raises(FiguresError):
            own_figures(wire + wrong)
    with pytest.raises(FiguresError):
        own_figures('version = "a"\n[figure.end_sheet]\ngauge = "SWG 18"')


def test_figures_that_go_together_are_checked_together() -> None:
    """Each alone is sane, but the least gap may not pass the most."""
    low = '[figure.gap_least_isolate]\nvalue = 4.3\nunit = "mm"'
    with pytest.raises(FiguresError) as refused:
        own_figures(f'version = "a"\n{low}')
    assert refused.value.would_do == "less-than figure.gap_limit_isolate"


@pytest.mark.parametrize("kind", ["figure", "choice", "gap"])
def test_every_figure_can_be_said_again_with_its_built_in_value(kind: str) -> None:
    """The built-in value of each lies in its own sane range, and has a unit that is accepted."""
    for name, row in table("workshop.toml")[kind].items():
        keys = {"value", "unit", "must_low", "aim_low", "aim_high", "aim_share_of_depth"}
        lines = [f"{key} = {_toml(value)}" for key, value in row.items() if key in keys]
        own = own_figures("\n".join(['version = "same"', f"[{kind}.{name}]", *lines]))
        assert replace(own, version="1") == default_figures(), name


def _toml(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    return f'"{value}"' if isinstance(value, str) else str(value)
