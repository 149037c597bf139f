"""A word for two things: "placing 3 sc in each corner" works, "placing a marker" does not."""

from stitchproof.language.read.steps.advice import read_advice
from stitchproof.language.read.steps.joins import read_join
from stitchproof.language.read.steps.markers import read_marker
from stitchproof.language.read.steps.placed import read_work
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import Steps


def read_close(reader: Reader, frame: Frame) -> Steps | None:
    """Read "close with a slip stitch in first sc", "close the round" as a join."""
    ahead = 2 if reader.text(1) in {"the", "this"} else 1
    joins = reader.text(ahead) in {"with", "round", "rnd", "", ".", ","}
    return read_join(reader, frame) if joins else read_advice(reader, frame)


def read_placing(reader: Reader, frame: Frame) -> Steps | None:
    """Read "placing" by what is placed: "putting the last sc in top of ch-3" works as well."""
    ahead = 2 if reader.text(1) == "the" else 1
    last = reader.text(ahead) == "last" and starts_stitch(reader, ahead + 1)
    works = last or (reader.number(1) is not None and starts_stitch(reader, 2))
    return read_work(reader, frame) if works else read_marker(reader, frame)
