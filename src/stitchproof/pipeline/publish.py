"""From a pressed manuscript to the files of its edition."""

from collections.abc import Mapping

from stitchproof.edition.compose import compose
from stitchproof.edition.write_all import files_of
from stitchproof.pipeline.press import Pressed


def editions(pressed: Pressed, name: str, *, draft: bool) -> Mapping[str, bytes]:
    """Write the edition of the sizes that were worked.

    Parameters
    ----------
    pressed : Pressed
        What was read, sized and worked, with outlines.
    name : str
        What the files are called.
    draft : bool
        Mark every page; needed when the proof found errors.

    Returns
    -------
    mapping of str to bytes
        Content by file name.
    """
    edition = compose(
        pressed.manuscript,
        pressed.sizing,
        pressed.proof,
        pressed.found,
        draft=draft,
        date=pressed.sizing.plain.get("date", ""),
    )
    return files_of(edition, name)
