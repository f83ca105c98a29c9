"""The shipped reader taken up to learn on: the torch network reads a talk nearly as the file does."""

from __future__ import annotations

import json
import re
from pathlib import Path

import numpy as np
import pytest

from extract.reader.read import MODEL, read_words
from extract.reader.training.form import read_annotated

pytest.importorskip("torch", reason="torch, which only training needs, is not installed")
pytest.importorskip("onnx", reason="onnx, which only training needs, is not installed")
pytest.importorskip("transformers", reason="transformers, which only training needs, is not installed")

import torch
from tokenizers import Tokenizer

from extract.reader.training.resume import GATES, in_order, take_up
from extract.reader.training.shows import Show, units
from extract.reader.training.train import encoder_of, pack

TALK = Path(__file__).parents[1] / "talks" / "a-outport.talk"
CHOICES = ("dish", "begin", "role", "things", "figures", "title")
VECTORS = ("where", "pair")


def test_the_network_taken_up_reads_as_the_file_does(tmp_path: Path) -> None:
    """Apart from what rounding the activations to 8 bits does in the file alone."""
    spoken = " ".join(sentence.text for sentence in read_annotated(TALK).sentences)
    words = re.findall(r"[\w'’]+|[^\w\s]", spoken)
    net = take_up(MODEL, tmp_path).eval()
    tokenizer = Tokenizer.from_file(str(tmp_path / "tokenizer.json"))
    none = np.zeros(len(words), dtype=np.int64)
    blank = dict.fromkeys(("role", "sentence", "things", "figures", "title", "candidates"), none)
    show = Show(words, dish=[], lines=[], shares=[], pieces=encoder_of(tokenizer)(words), **blank)
    batch = pack([show], [units(words)], tokenizer, "cpu", None)
    with torch.no_grad():
        made = net.read(net.words(batch), batch.unit_of, batch.unit_counts)
    reading = read_words(words)
    for name in CHOICES:
        same = getattr(made, name).argmax(1).numpy() == getattr(reading, name).argmax(1)
        assert same.mean() > 0.97, name
    for name in VECTORS:
        shipped = getattr(reading, name)
        assert np.abs(getattr(made, name).numpy() - shipped).mean() < 0.05 * shipped.std(), name


def test_the_folder_stands_in_for_the_base(tmp_path: Path) -> None:
    """Its sizes are those of the weights, its tokenizer the file's own."""
    net = take_up(MODEL, tmp_path)
    config = json.loads((tmp_path / "config.json").read_text())
    tokenizer = Tokenizer.from_file(str(tmp_path / "tokenizer.json"))
    assert (
        config["vocab_size"] == tokenizer.get_vocab_size() == len(net.encoder.get_input_embeddings().weight)
    )
    assert config["num_hidden_layers"] == len(net.encoder.encoder.layer)


def test_gates_are_put_into_torchs_order() -> None:
    """Input, output, forget, cell become input, forget, cell, output."""
    assert in_order(np.array(list("iiooffcc"))).tolist() == list("iiffccoo")
    assert sorted(GATES) == [0, 1, 2, 3]
