"""The figures the workshop works with."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from bot.figures import workshop_figures
from bot.settings import Settings, SettingsError
from sizing.workshop import default_figures

TWO = '\nvalue = 2\nunit = "mm"'
LESS = '\nvalue = 1.5\nunit = "mm"'


def settings(folder: Path, figures: Path | None) -> Settings:
    """Settings that name this file of figures."""
    return Settings(database=folder / "data" / "w.db", key_file=folder / "key", figures=figures)


def test_without_a_file_the_built_in_figures_hold(tmp_path: Path) -> None:
    """Nothing has to be written down by a workshop that works as usual."""
    assert workshop_figures(settings(tmp_path, None)) is default_figures()


def test_the_file_is_read(tmp_path: Path) -> None:
    """What it names is another figure, under another version."""
    file = tmp_path / "figures.toml"
    file.write_text('version = "new"\n[figure.rim]\nvalue = 5\nunit = "mm"\n', encoding="utf-8")
    found = workshop_figures(settings(tmp_path, file))
    assert found.rim == Fraction(5)
    assert found.version.startswith("new-")


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ('version = "a"\n[figure.rim]\nvalue = 50\nunit = "mm"', "figure.rim.value: 2 to 20 mm"),
        ('version = "a"\n[figure.rim]\nvalue = 5\nunit = "in"', "figure.rim.unit: one of mm"),
        ('version = "a"\n[figure.hat]\nvalue = 5', "figure.hat: the name of a figure"),
        ('version = "a"\n[choice.cutting]\nvalue = "x"', "choice.cutting.value: one of f, m"),
        (f'version = "a"\n[figure.floor_flat]{TWO}\n[figure.floor_wired]{LESS}',
         "figure.floor_flat: less than figure.floor_wired"),
        ('version = "a"\n[figure.wire_diameter]\ngauge = 14',
         "figure.wire_diameter.gauge: a series and a number"),
        ('version = "a"\nrim = 5', "rim: one of version, figure, choice, gap"),
        ('version = "a"\n[gap.below]\naim_low = 0\nunit = "mm"', "gap.below: bounds that rise"),
        ("version = ", "file: text in TOML"),
        ("", "version: a name without blanks"),
        ("version = 'a'\n#" + "x" * 100_000, "a-file-of-at-most"),
    ],
)  # fmt: skip
def test_a_figure_that_cannot_be_used_is_named(tmp_path: Path, written: str, words: str) -> None:
    """The setting is `figures`, and the line says which figure and what would do."""
    file = tmp_path / "figures.toml"
    file.write_text(written, encoding="utf-8")
    with pytest.raises(SettingsError) as refused:
        workshop_figures(settings(tmp_path, file))
    assert refused.value.field == "figures"
    assert refused.value.would_do.startswith(words)
    assert "\n" not in refused.value.would_do


@pytest.mark.parametrize("content", [None, b"\xff\xfe"])
def test_a_file_that_cannot_be_read_is_refused(tmp_path: Path, content: bytes | None) -> None:
    """Missing, or not text."""
    file = tmp_path / "figures.toml"
    if content is not None:
        file.write_bytes(content)
    with pytest.raises(SettingsError) as refused:
        workshop_figures(settings(tmp_path, file))
    assert refused.value.would_do == "a-text-file-that-can-be-read"
