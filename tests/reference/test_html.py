"""Pages of editions against the standard, and in a browser."""

import os
import re
import shutil
import struct
import subprocess
import xml.etree.ElementTree as ET
import zlib
from itertools import pairwise
from pathlib import Path

import html5lib
import pytest

from stitchproof.edition.html import html
from stitchproof.edition.model import Edition
from tests.test_edition_writers import NASTY, every_block, tee

pytestmark = pytest.mark.reference

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
SEVERAL = [
    pytest.param(tee(), id="all sizes"),
    pytest.param(tee(2), id="one size"),
    pytest.param(tee(2, 6, draft=True), id="draft"),
    pytest.param(every_block(NASTY), id="markup"),
    pytest.param(every_block("a\x00\x0b\ud800\ufffe"), id="forbidden characters"),
]
XHTML = "{http://www.w3.org/1999/xhtml}"


def parsed(page: bytes) -> ET.Element:
    """Parse strictly: any error of syntax raises."""
    root = html5lib.HTMLParser(strict=True).parse(page.decode("utf-8"))
    assert isinstance(root, ET.Element)
    return root


# The WHATWG HTML standard, its parse errors as html5lib 1.1 knows them.
@pytest.mark.parametrize("edition", SEVERAL)
def test_a_page_parses_without_an_error(edition: Edition) -> None:
    parsed(html(edition))


# WCAG 2.2: 1.1.1 words for pictures, 1.3.1 and 2.4.1 headings and landmarks, 3.1.1 language.
@pytest.mark.parametrize("edition", SEVERAL[:3])
def test_a_page_can_be_walked_without_seeing_it(edition: Edition) -> None:
    root = parsed(html(edition))
    assert root.get("lang") == "en"
    tags = [str(element.tag).removeprefix(XHTML) for element in root.iter()]
    levels = [int(tag[1]) for tag in tags if re.fullmatch("h[1-6]", tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(b <= a + 1 for a, b in pairwise(levels))
    for landmark in ("header", "nav", "main", "footer"):
        assert tags.count(landmark) == 1
    assert "script" not in tags
    assert "link" not in tags
    for svg in root.iter("{http://www.w3.org/2000/svg}svg"):
        assert svg.get("role") == "img"
        assert [child.tag.rpartition("}")[2] for child in svg[:2]] == ["title", "desc"]
        assert all(child.text for child in svg[:2])
    for head in root.iter(f"{XHTML}th"):
        assert head.get("scope") in {"col", "row"}


@pytest.mark.parametrize("edition", SEVERAL)
def test_a_page_asks_for_nothing_else(edition: Edition) -> None:
    page = html(edition).decode("utf-8")
    found = re.findall(r"""(?:src|href|url|@import|action)\s*[=(]\s*["']?([^"')\s>]*)""", page)
    assert all(target.startswith("#") for target in found)
    assert set(re.findall(r"https?://[^\s\"'<]*", page)) <= {"http://www.w3.org/2000/svg"}


# --------------------------------------------------------------------------- in a browser


def picture(page: Path, tmp: Path, width: int) -> bytes:
    if CHROMIUM is None:
        if os.environ.get("CI"):  # noqa: TID251 - a check must not be skipped there
            pytest.fail("no chromium to open the page with")
        pytest.skip("no chromium to open the page with")
    shot = tmp / f"{width}.png"
    flags = (
        *("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
        *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
        *("--hide-scrollbars", f"--user-data-dir={tmp / 'profile'}"),
    )
    subprocess.run(
        [CHROMIUM, *flags, f"--window-size={width},2500", f"--screenshot={shot}", page.as_uri()],
        check=True,
        capture_output=True,
        timeout=120,
    )
    return shot.read_bytes()


def rows_of_pixels(png: bytes) -> tuple[int, list[bytes]]:
    """Unpack a PNG of 8-bit pixels: bytes a pixel, and the rows."""
    width, height, depth, colour = struct.unpack(">IIBB", png[16:26])
    assert depth == 8
    channels = {2: 3, 6: 4}[colour]
    data, at = b"", 8
    while at < len(png):
        size, kind = struct.unpack(">I4s", png[at : at + 8])
        data += png[at + 8 : at + 8 + size] if kind == b"IDAT" else b""
        at += size + 12
    return channels, _unfiltered(zlib.decompress(data), width * channels, height, channels)


def _unfiltered(raw: bytes, stride: int, height: int, step: int) -> list[bytes]:
    rows: list[bytes] = []
    before = bytes(stride)
    for y in range(height):
        kind, *line = raw[y * (stride + 1) : (y + 1) * (stride + 1)]
        for x in range(stride):
            left = line[x - step] if x >= step else 0
            corner = before[x - step] if x >= step else 0
            guess = left + before[x] - corner
            paeth = min((left, before[x], corner), key=lambda v, g=guess: abs(g - v))  # type: ignore[misc]
            line[x] = (line[x] + (0, left, before[x], (left + before[x]) // 2, paeth)[kind]) % 256
        before = bytes(line)
        rows.append(before)
    return rows


@pytest.mark.slow
def test_a_page_fits_a_phone(tmp_path: Path) -> None:
    """At 360 px nothing runs off the right edge, and the page is not empty."""
    page = tmp_path / "tee.html"
    page.write_bytes(html(tee()))
    channels, rows = rows_of_pixels(picture(page, tmp_path, 360))
    paper = b"\xff" * channels
    assert len(rows[0]) == 360 * channels
    assert sum(row != paper * 360 for row in rows) > 500
    margin = 6
    for row in rows:
        assert row[-margin * channels :] == paper * margin
