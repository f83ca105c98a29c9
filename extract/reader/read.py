"""One pass of the learned reader over a talk.

The model is one file in the package, an archive of two ONNX graphs, the tokenizer, a few biases and its card. It is
opened when something is drafted.
"""

from __future__ import annotations

import json
import zipfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from extract.errors import CardwrightError
from extract.reader.labels import FIGURES, ROLES, THINGS, TITLE
from extract.reader.reading import Biases, Floats, Reading
from extract.reader.units import unit_starts

if TYPE_CHECKING:
    from onnxruntime import InferenceSession
    from tokenizers import Tokenizer

MODEL = Path(__file__).parent / "reader.model"
ROOM = 400  # pieces in one stretch of the encoder
WIDTHS = {
    "dish": 8,
    "begin": 3,
    "where": 64,
    "role": len(ROLES),
    "things": len(THINGS),
    "figures": len(FIGURES),
    "title": len(TITLE),
    "parting": 3,
    "pair": 5 * 64 + 3,
}
LONGEST = 8  # pieces of one word that are looked at


@dataclass(frozen=True)
class Model:
    """The loaded reader."""

    encoder: InferenceSession
    heads: InferenceSession
    tokenizer: Tokenizer
    biases: Biases


@lru_cache(maxsize=1)
def load_reader(path: Path = MODEL) -> Model:
    """The model, loaded once a process.

    Raises CardwrightError where the file is missing or damaged.
    """
    import onnxruntime
    from tokenizers import Tokenizer

    try:
        options = onnxruntime.SessionOptions()
        options.intra_op_num_threads = 1  # two take half as long again in all, and a talk is parsed beside it
        options.enable_mem_pattern = False  # every stretch has its own length: patterns would only be kept
        options.log_severity_level = 3
        options.add_session_config_entry("session.disable_quant_qdq", "1")  # weights are unpacked once, here
        with zipfile.ZipFile(path) as archive:
            encoder, heads = (
                onnxruntime.InferenceSession(archive.read(name), options, providers=["CPUExecutionProvider"])
                for name in ("encoder.onnx", "heads.onnx")
            )
            tokenizer = Tokenizer.from_buffer(archive.read("tokenizer.json"))
            rows = json.loads(archive.read("biases.json"))
    except FileNotFoundError:
        problem = "the reader's model is missing"
        raise CardwrightError(problem, path=path, remedy="install Cardwright again") from None
    except Exception as fault:
        problem = f"the reader's model is damaged ({type(fault).__name__})"
        raise CardwrightError(problem, path=path, remedy="install Cardwright again") from fault
    near, far = (np.asarray(rows[key], dtype=np.float32) for key in ("near", "far"))
    return Model(encoder, heads, tokenizer, Biases(near, far, tuple(rows["where"])))


def read_card(path: Path = MODEL) -> dict[str, Any]:
    """What the model was made from, its settings, its figures and its licence."""
    with zipfile.ZipFile(path) as archive:
        return dict(json.loads(archive.read("card.json")))


def read_words(words: Sequence[str], model: Model | None = None) -> Reading:
    """The reading of a talk's tokens, in one pass; the work grows as the talk does."""
    model = model or load_reader()
    if not words:
        return _nothing(model)
    starts = unit_starts(words)
    unit_of = np.zeros(len(words), dtype=np.int64)
    unit_of[starts[1:]] = 1
    unit_of = np.cumsum(unit_of)
    vectors = _vectors(model, words, starts)
    units = np.add.reduceat(vectors, starts, axis=0) / np.diff([*starts, len(words)])[:, None]
    found = model.heads.run(None, {"words": vectors, "units": units.astype(np.float32), "unit_of": unit_of})
    named = dict(zip([output.name for output in model.heads.get_outputs()], found, strict=True))
    return Reading(
        starts=np.asarray(starts, dtype=np.int64),
        where=named["where"],
        optional=1 / (1 + np.exp(-named["line"][:, 0])),
        parting=_softmax(named["line"][:, 1:]),
        pair=named["pair"],
        biases=model.biases,
        **{key: _softmax(named[key]) for key in ("dish", "begin", "role", "things", "figures", "title")},
    )


def _nothing(model: Model) -> Reading:
    """The reading of no words."""
    none = {key: np.zeros((0, n), dtype=np.float32) for key, n in WIDTHS.items()}
    starts = np.zeros(0, dtype=np.int64)
    return Reading(starts=starts, optional=np.zeros(0, dtype=np.float32), biases=model.biases, **none)


def _piece(model: Model, name: str) -> int:
    found = model.tokenizer.token_to_id(name)
    return 0 if found is None else int(found)


def _pieces(model: Model, words: Sequence[str]) -> list[list[int]]:
    unknown = _piece(model, "[UNK]")
    found: list[list[int]] = [[] for _ in words]
    encoding = model.tokenizer.encode(list(words), is_pretokenized=True, add_special_tokens=False)
    for piece, word in zip(encoding.ids, encoding.word_ids, strict=True):
        if word is not None:
            found[word].append(piece)
    return [pieces[:LONGEST] or [unknown] for pieces in found]


def _stretches(pieces: Sequence[Sequence[int]], starts: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Runs of whole units that fit into the encoder."""
    begin, size = 0, 0
    for a, b in zip(starts, [*starts[1:], len(pieces)], strict=True):
        length = sum(len(pieces[i]) for i in range(a, b))
        if size and size + length > ROOM:
            yield begin, a
            begin, size = a, 0
        size += length
    yield begin, len(pieces)


def _vectors(model: Model, words: Sequence[str], starts: Sequence[int]) -> Floats:
    """A vector a word: the mean of its pieces'. One stretch after another: more at once cost memory."""
    pieces = _pieces(model, words)
    return np.concatenate([_encode(model, pieces[a:b]) for a, b in _stretches(pieces, starts)])


def _encode(model: Model, pieces: Sequence[Sequence[int]]) -> Floats:
    """The vectors of the words of one stretch."""
    ids = [_piece(model, "[CLS]"), *(piece for word in pieces for piece in word), _piece(model, "[SEP]")]
    row = np.array([ids], dtype=np.int64)
    vectors = model.encoder.run(None, {"pieces": row, "mask": np.ones_like(row)})[0][0, 1:-1]
    sizes = np.array([len(word) for word in pieces])
    sums = np.add.reduceat(vectors, np.cumsum(sizes) - sizes, axis=0)
    return np.asarray(sums / sizes[:, None], dtype=np.float32)


def _softmax(scores: Floats) -> Floats:
    top = np.exp(scores - scores.max(1, keepdims=True))
    return np.asarray(top / top.sum(1, keepdims=True), dtype=np.float32)
