"""The shipped reader taken up again to learn on: its 8-bit weights as a state of the torch network.

    python -m extract.reader.training.resume MODEL OUT

``OUT`` becomes a folder as BASE, of ``config.json`` and ``tokenizer.json``, with ``reader.pt`` beside them. What was
rounded away when the model was written stays away: a weight comes back to within half a step of its channel.
"""

from __future__ import annotations

import json
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import onnx
import torch
from numpy.typing import NDArray
from onnx import helper, numpy_helper
from torch import Tensor
from transformers import AutoModel, BertConfig

from extract.reader.training.network import ReaderNet

Held = dict[str, NDArray[Any]]
HEADS = 12  # of attention; the graph holds them only as a shape on the way
GATES = (0, 2, 3, 1)  # ONNX has them as input, output, forget, cell; torch as input, forget, cell, output


def take_up(model: Path, out: Path) -> ReaderNet:
    """The network with the weights of ``model``, and the folder ``out`` that it can be exported from.

    Raises RuntimeError where the model's graphs lack a weight or have one of another shape.
    """
    with zipfile.ZipFile(model) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    state = state_of(parts)
    out.mkdir(parents=True, exist_ok=True)
    (out / "tokenizer.json").write_bytes(parts["tokenizer.json"])
    config = config_of(state)
    config.save_pretrained(out)
    net = ReaderNet(AutoModel.from_config(config, add_pooling_layer=False))
    net.load_state_dict(state)
    return net


def config_of(state: dict[str, Tensor]) -> BertConfig:
    """The encoder's sizes, read off its weights; the rest is as BERT has it by itself."""
    pieces, width = state["encoder.embeddings.word_embeddings.weight"].shape
    inner = [name for name in state if name.endswith(".intermediate.dense.weight")]
    return BertConfig(
        vocab_size=pieces,
        hidden_size=width,
        num_hidden_layers=len(inner),
        num_attention_heads=HEADS,
        intermediate_size=len(state[inner[0]]),
        max_position_embeddings=len(state["encoder.embeddings.position_embeddings.weight"]),
    )


def state_of(parts: dict[str, bytes]) -> dict[str, Tensor]:
    """The state of ``ReaderNet`` from the entries of the model's file."""
    rows = json.loads(parts["biases.json"])
    found: Held = {
        "where_bias": np.array(rows["where"]),
        "near.weight": np.array(rows["near"])[:, None],
        "far.weight": np.array(rows["far"]).T,
    }
    for name in ("encoder.onnx", "heads.onnx"):
        graph = onnx.load_from_string(parts[name]).graph
        held = weights_of(graph)
        found |= dict(named_weights(held)) | dict(matrices(graph, held)) | dict(recurrent(graph, held))
    return {
        name.removeprefix("net."): torch.tensor(value, dtype=torch.float32) for name, value in found.items()
    }


def weights_of(graph: onnx.GraphProto) -> Held:
    """The graph's tables by name, those that stand in it as integers as what they stand for."""
    held = {value.name: numpy_helper.to_array(value) for value in graph.initializer}
    for node in graph.node:
        if node.op_type == "DequantizeLinear":
            whole, scale = (held.pop(name) for name in node.input)
            axis = next(helper.get_attribute_value(one) for one in node.attribute if one.name == "axis")
            shape = [-1 if k == axis else 1 for k in range(whole.ndim)]
            held[node.output[0]] = whole.astype(np.float32) * scale.reshape(shape)
    return held


def named_weights(held: Held) -> Iterator[tuple[str, NDArray[Any]]]:
    """What the graph still calls by the network's names and holds as it does: biases, norms, embeddings, the heads."""
    yield from ((name, value) for name, value in held.items() if name.endswith((".weight", ".bias")))


def matrices(graph: onnx.GraphProto, held: Held) -> Iterator[tuple[str, NDArray[Any]]]:
    """The encoder's linear layers, named by where their product stands ("/encoder/…/query/MatMul")."""
    for node in graph.node:
        if node.op_type == "MatMul" and node.input[1] in held:
            yield f"{'.'.join(node.name.split('/')[1:-1])}.weight", held[node.input[1]].T


def recurrent(graph: onnx.GraphProto, held: Held) -> Iterator[tuple[str, NDArray[Any]]]:
    """The weights of the pass over the show, layer by layer and direction by direction."""
    layers = [node for node in graph.node if node.op_type == "LSTM"]
    for layer, node in enumerate(layers):
        into, back, bias = (held[name] for name in node.input[1:4])
        values = (into, back, *np.split(bias, 2, axis=1))
        for key, value in zip(("weight_ih", "weight_hh", "bias_ih", "bias_hh"), values, strict=True):
            for direction, end in enumerate(("", "_reverse")):
                yield f"show.{key}_l{layer}{end}", in_order(value[direction])


def in_order(rows: NDArray[Any]) -> NDArray[Any]:
    """The rows of an ONNX cell in torch's order of gates."""
    gates = np.split(rows, len(GATES))
    return np.concatenate([gates[k] for k in GATES])


def main(model: str, out: str) -> None:
    """Write the folder with the state in it."""
    net = take_up(Path(model), Path(out))
    torch.save(net.state_dict(), Path(out) / "reader.pt")


if __name__ == "__main__":
    main(*sys.argv[1:])
