"""The drawing for machines, read back."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from io import BytesIO
from itertools import pairwise

import pytest
from ezdxf import bbox, recover, units
from ezdxf.document import Drawing
from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.entities.lwpolyline import LWPolyline

from bot.paperwork.dxf import LAYERS, PlacedCage, as_bytes, flat_patterns, new_drawing
from conversations.locale import languages
from sizing.cage import design_cage
from sizing.fabrication.sheet import patterns, wire_panels
from sizing.measures import Above, Below, Frame, Hive, Length, LidChoice, Purpose, Request
from sizing.workshop import default_figures

KINDS: dict[str, dict[str, object]] = {
    "end-open": {},
    "closed": {"lid": LidChoice.CLOSED, "lug_room": 398},
    "between-walls": {"lid": LidChoice.CLOSED_BETWEEN_WALLS},
    "beside-lug": {"ledge_up": 12, "ledge_down": 260},
    "flat-floor": {"below_space": 5},
}


def millimetres(**lengths: object) -> dict[str, Length]:
    """Lengths by name, each read once."""
    return {name: Length((Fraction(str(value)),)) for name, value in lengths.items()}


def cage(kind: str = "end-open", pieces: int = 1) -> PlacedCage:
    """A cage of this kind."""
    changes = dict(KINDS[kind])
    lid = changes.pop("lid", LidChoice.AUTO)
    assert isinstance(lid, LidChoice)
    hive = {"inside_along": 375, "lug_room": 393.25, "ledge_down": 253, "ledge_up": 17,
            "inside_across": 375, **changes}  # fmt: skip
    request = Request(
        purpose=Purpose.ISOLATE,
        frame=Frame(
            **millimetres(
                side_to_side=360, top_to_bottom=260, lug_to_lug=391, lug_thickness=10,
                top_bar_thickness=10, lug_width=25, widest_wood=35, comb_thickness=27,
            )
        ),
        hive=Hive(**millimetres(**hive), below=Below.BOX, above=Above.BOX),  # type: ignore[arg-type]
        lid=lid,
    )  # fmt: skip
    figures = default_figures()
    return PlacedCage(1, pieces, design_cage(request, figures), figures)


def read(data: bytes) -> Drawing:
    """The drawing as another program finds it; nothing to repair in it."""
    drawing, auditor = recover.read(BytesIO(data))
    assert (auditor.errors, auditor.fixes) == ([], [])
    return drawing


def on(drawing: Drawing, layer: str) -> list[DXFEntity]:
    """Everything on one layer."""
    return list(drawing.modelspace().query(f'*[layer=="{layer}"]'))


def extent(entities: Iterable[DXFEntity]) -> tuple[float, float]:
    """Width and height over all of them."""
    size = bbox.extents(entities).size
    return size.x, size.y


@pytest.mark.parametrize("kind", KINDS)
def test_it_is_in_millimetres_and_clean(kind: str) -> None:
    """Unit declared, nothing to repair, no layer without a definition, no line without length."""
    drawing = read(flat_patterns("48291742", [cage(kind)], "en"))
    assert drawing.units == units.MM
    assert drawing.header["$MEASUREMENT"] == 1
    used = {entity.dxf.layer for entity in drawing.modelspace()}
    assert used == set(LAYERS)
    assert all(drawing.layers.has_entry(layer) for layer in used)
    for line in drawing.modelspace().query("LINE"):
        assert line.dxf.start.distance(line.dxf.end) > 0


@pytest.mark.parametrize("kind", KINDS)
def test_only_closed_outlines_are_cut(kind: str) -> None:
    """What a cutter reads are the outlines, each closed, none with a corner twice."""
    cut = on(read(flat_patterns("48291742", [cage(kind)], "en")), "CUT")
    assert {entity.dxftype() for entity in cut} == {"LWPOLYLINE"}
    for outline in cut:
        assert isinstance(outline, LWPolyline)
        assert outline.closed
        points = [(x, y) for x, y, *_ in outline.get_points()]
        assert len(set(points)) == len(points)


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_read_back_is_what_was_worked_out(kind: str) -> None:
    """Every outline has the extent of its blank, every wire its length, every bend its place."""
    one = cage(kind)
    drawing = read(flat_patterns("48291742", [one], "en"))
    made = patterns(one.design, one.figures)
    wanted = [(float(part.width), float(part.height)) for part in made]
    assert [extent([entity]) for entity in on(drawing, "CUT")] == [
        pytest.approx(size, abs=1e-6) for size in wanted
    ]
    assert len(on(drawing, "BEND")) == sum(len(part.bends) for part in made)
    panels = wire_panels(one.design, one.figures)
    lengths = [line.dxf.start.distance(line.dxf.end) for line in on(drawing, "WIRE")]
    assert lengths == [
        pytest.approx(float(length))
        for panel in panels
        for length in [panel.length] * len(panel.wires) + [panel.opening] * len(panel.stays)
    ]


def test_bends_lie_inside_their_outline() -> None:
    """No bend of one part strays into another."""
    drawing = read(flat_patterns("48291742", [cage("between-walls")], "en"))
    boxes = [bbox.extents([outline]) for outline in on(drawing, "CUT")]
    for bend in on(drawing, "BEND"):
        homes = [box for box in boxes if box.inside(bend.dxf.start) and box.inside(bend.dxf.end)]
        assert len(homes) == 1


def test_parts_do_not_lie_on_each_other() -> None:
    """Two cages in one drawing: every outline and every panel has its own band of the sheet."""
    drawing = read(flat_patterns("48291742", [cage(), replace(cage("closed"), item=2)], "en"))
    bands = sorted(
        (box.extmin.y, box.extmax.y)
        for box in (bbox.extents([outline]) for outline in on(drawing, "CUT"))
    )
    assert all(low[1] < high[0] for low, high in pairwise(bands))
    baselines = [text.dxf.insert.y for text in on(drawing, "TEXT")]
    for y in baselines:
        assert not any(low <= y <= high for low, high in bands)


@pytest.mark.parametrize("language", languages())
def test_every_part_is_named_and_counted(language: str) -> None:
    """In the language of the paper, with as many pieces as all cages need."""
    drawing = read(flat_patterns("48291742", [cage(pieces=3)], language))
    texts = [text.dxf.text for text in on(drawing, "TEXT")]
    assert "482\u00a0917\u00a042" in texts[0]
    walls = {"en": "End wall with ear", "pl": "Ścianka końcowa z zaczepem"}
    wall = next(text for text in texts if text.startswith(walls[language]))
    assert " 6," in wall
    assert {"en": "0.8 mm", "pl": "0,8 mm"}[language] in wall


@pytest.mark.parametrize("language", languages())
def test_a_cage_with_an_open_size_is_named_and_not_drawn(language: str) -> None:
    """The others of the order are; nothing is made up for it."""
    one = cage()
    bare = replace(one.design, cage=replace(one.design.cage, drop_below_ledge=None))
    both = flat_patterns("48291742", [replace(one, design=bare), replace(one, item=2)], language)
    drawing = read(both)
    assert len(on(drawing, "CUT")) == len(patterns(one.design, one.figures))
    assert {"en": "still open", "pl": "brakuje"}[language] in on(drawing, "TEXT")[0].dxf.text


def test_the_same_order_gives_the_same_bytes() -> None:
    """No clock, no chance, no id in a drawing."""
    first, second = (flat_patterns("48291742", [cage()], "pl") for _ in range(2))
    assert first == second


def test_an_empty_drawing_has_our_layers() -> None:
    """Whoever draws on it has them all, in millimetres."""
    drawing = read(as_bytes(new_drawing()))
    assert set(LAYERS) <= {layer.dxf.name for layer in drawing.layers}
    assert drawing.units == units.MM
