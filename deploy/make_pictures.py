"""Make the pictures of the front page: the chat as a phone shows it, and the drawing of a cage.

    .venv/bin/python deploy/make_pictures.py

Needs what the tests need: the environment of `check.py`, and chromium.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from fractions import Fraction
from pathlib import Path

from playwright.sync_api import Page, ViewportSize, sync_playwright

from bot.pictures import Renderer
from conversations.effects import Picture
from sizing.measures import Below, Frame, Hive, Length, Purpose, Request

PICTURES = Path(__file__).parent / "pictures"
PHONE = ViewportSize(width=390, height=920)
TAPS_AND_WORDS = ("#en", "#isolate", "Wielkopolska", "360 mm", "260 mm")
"""What is answered before the picture is taken: a tap begins with #."""


def main() -> int:
    """Make both pictures."""
    browser = shutil.which("chromium")
    if browser is None:
        sys.stderr.write("make_pictures: chromium is not installed\n")
        return 2
    PICTURES.mkdir(exist_ok=True)
    (PICTURES / "cage.png").write_bytes(_cage())
    with _served() as address:
        _chat(address, browser, PICTURES / "chat.png")
    return 0


def _cage() -> bytes:
    """The cage for a frame of 360 by 260 in its usual hive."""

    def length(value: int) -> Length:
        return Length((Fraction(value),))

    request = Request(
        purpose=Purpose.ISOLATE,
        frame=Frame(
            side_to_side=length(360),
            top_to_bottom=length(260),
            lug_to_lug=length(391),
            lug_thickness=length(10),
            widest_wood=length(35),
            comb_thickness=length(27),
        ),
        hive=Hive(
            inside_along=length(375),
            lug_room=length(393),
            ledge_down=length(253),
            ledge_up=length(17),
            below=Below.BOX,
        ),
    )
    return Renderer().png(Picture(name="cage", request=request), "en")


@contextmanager
def _served() -> Iterator[str]:
    """The address of a fresh workshop that is served while the context is open."""
    with tempfile.TemporaryDirectory() as folder:
        places = {
            "CAGEWRIGHT_DATABASE": str(Path(folder, "data", "shop.db")),
            "CAGEWRIGHT_KEY_FILE": str(Path(folder, "secret", "key")),
        }
        command = [sys.executable, "-m", "bot", "serve", "--port", "0"]
        with subprocess.Popen(
            command,
            cwd=PICTURES.parents[1],
            env={**os.environ, **places},
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        ) as program:
            try:
                assert program.stdout is not None
                yield program.stdout.readline().split()[1]
            finally:
                program.terminate()


def _chat(address: str, browser: str, to: Path) -> None:
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(
            executable_path=browser, args=["--headless=new", "--no-sandbox", "--disable-gpu"]
        )
        page = opened.new_page(viewport=PHONE, locale="en-GB", reduced_motion="reduce")
        page.goto(address)
        _answer(page, "#/start")
        for answer in TAPS_AND_WORDS:
            _answer(page, answer)
        page.locator("#text").blur()
        page.locator(".picture").last.evaluate("picture => picture.decode()")
        page.screenshot(path=to)
        opened.close()


def _answer(page: Page, answer: str) -> None:
    replies = page.locator(".ours").count()
    if answer.startswith("#"):
        page.locator(f"button[value='{answer[1:]}']:visible").click()
    else:
        page.locator("#text").fill(answer)
        page.locator("#text").press("Enter")
    page.locator(".ours").nth(replies).wait_for()


if __name__ == "__main__":
    sys.exit(main())
