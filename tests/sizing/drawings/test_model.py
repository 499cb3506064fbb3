"""The frame of the pictures fits the hive of the pictures."""

from __future__ import annotations

from sizing.drawings.model import MODEL


def test_the_model_is_a_frame_that_hangs_in_its_body() -> None:
    """It goes in, rests on the ledge, and ends above the lower edge and below the rim."""
    assert MODEL.side_to_side < MODEL.inside_along < MODEL.lug_to_lug < MODEL.lug_room
    assert -MODEL.ledge_down < MODEL.bottom < 0 < MODEL.top < MODEL.ledge_up


def test_the_model_adds_up_to_the_published_body() -> None:
    """Body 270 deep, frame 360 x 260 (ApisWiki, Ul wielkopolski)."""
    assert MODEL.ledge_down + MODEL.ledge_up == 270
    assert MODEL.top - MODEL.bottom == MODEL.top_to_bottom == 260
