"""A word for two things: "placing 3 sc in each corner" works, "placing a marker" does not."""

from stitchproof.language.read.steps.adornment import read_adornment
from stitchproof.language.read.steps.advice import read_advice
from stitchproof.language.read.steps.joins import read_join
from stitchproof.language.read.steps.markers import read_marker
from stitchproof.language.read.steps.new_yarn import read_rejoin
from stitchproof.language.read.steps.placed import read_work
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.read.steps.rows_below import join_to_limb
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


def read_put(reader: Reader, frame: Frame) -> Steps | None:
    """Read "place marker in first st"; keep "put the eyes between Rnds 9 and 10" as a remark."""
    marks = {reader.text(i) for i in range(1, 6)} & {"marker", "markers", "m"}
    adorned = None if marks else read_adornment(reader, frame)
    return adorned or read_marker(reader, frame)


def read_attach(reader: Reader, frame: Frame) -> Steps | None:
    """Read "attach yarn in first st"; "attach a stitch marker to each corner" puts markers in."""
    start = reader.at
    if reader.text(1) == "to":
        reader.take()
        joined = join_to_limb(reader, start)  # "attach to first leg with a sc"
        if joined is not None:
            return joined
        reader.at = start
    near = {reader.text(i) for i in range(1, 5)}
    if near & {"ribbon", "ribbons", "tie", "ties", "tassel", "tassels"}:
        return read_advice(reader, frame)
    marks = near & {"marker", "markers"}
    return read_put(reader, frame) if marks else read_rejoin(reader, frame)
