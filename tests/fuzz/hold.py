"""What must hold of every manuscript, whatever is in it."""

import json

from stitchproof.pipeline.desk import Unusable
from stitchproof.pipeline.grade import grade_json, grade_text
from stitchproof.pipeline.press import Pressed, press
from stitchproof.pipeline.publish import editions
from stitchproof.pipeline.report import findings_object, proof_object
from stitchproof.pipeline.words import before_publishing, proof_words
from tests.desks import Paper

NAME = "made-up.md"


def hold(raw: bytes) -> Pressed | None:
    """Press a manuscript and say all that can be said of it; None when it cannot be used at all."""
    try:
        pressed = press(Paper(raw), NAME, shapes=True)
    except Unusable as wrong:
        assert "\n" not in str(wrong)  # noqa: PT017 - most manuscripts raise nothing
        return None
    for one in pressed.found:
        if one.place.source == NAME:
            assert 0 <= one.place.start <= one.place.end <= len(pressed.manuscript.text)
        assert one.message().strip()
        assert "\n" not in one.message()
    json.dumps(proof_object(pressed), allow_nan=False)
    json.dumps(grade_json(pressed.sizing, findings_object(pressed)), allow_nan=False)
    proof_words(pressed)
    grade_text(pressed.sizing)
    before_publishing(pressed)
    return pressed


def hold_editions(raw: bytes) -> None:
    """Write the editions of a manuscript too."""
    pressed = hold(raw)
    if pressed is not None:
        files = editions(pressed, "made-up", draft=True)
        assert len(files) == 3
        assert all(files.values())
