"""The typesetter: a template of ours and data become a PNG, an SVG or a PDF.

Data is all that goes in from outside, and the templates put it down as plain text. No font of
the system, no clock: the same data gives the same bytes.
"""

from __future__ import annotations

from functools import cached_property
from threading import Lock
from typing import Literal, TypeAlias

import typst

__all__ = ["Form", "Typesetter", "TypesettingWarningError"]

Form: TypeAlias = Literal["png", "svg", "pdf"]


class TypesettingWarningError(RuntimeError):
    """The typesetter had a doubt about our own sheet: `sheet`, `warnings`."""

    def __init__(self, sheet: str, warnings: tuple[str, ...]) -> None:
        super().__init__(sheet, warnings)
        self.sheet = sheet
        self.warnings = warnings


class Typesetter:
    """Sets one sheet after the other; threads may share it."""

    def __init__(self) -> None:
        self._lock = Lock()

    @cached_property
    def _compiler(self) -> typst.Compiler:
        fonts = typst.Fonts(include_system_fonts=False)
        return typst.Compiler(font_paths=fonts, ignore_system_fonts=True)

    def typeset(
        self, name: str, template: bytes, data: str, form: Form, ppi: float = 72.0
    ) -> list[bytes]:
        """The sheet `name` as pages; a PDF is one file whatever it holds.

        The template finds `data` as `sys.inputs.sheet`. Raises `TypesettingWarningError`.
        """
        with self._lock:
            made, warnings = self._compiler.compile_with_warnings(
                input=template, format=form, ppi=ppi, sys_inputs={"sheet": data}, timestamp=0
            )
        if warnings or made is None:
            raise TypesettingWarningError(name, tuple(str(one) for one in warnings))
        return [made] if isinstance(made, bytes) else list(made)
