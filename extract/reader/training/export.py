"""Write a trained reader as the one file that the package reads, its weights in 8-bit integers.

Only the weights are rounded. What is reckoned with them is in floating point: integer sums are done differently by
different processors, and a draft must not depend on the machine that makes it.

python -m extract.reader.training.export BASE READER.PT... OUT.model [--layers N] [--card CARD.json]

Of several weights the mean is written: a reader that has learned on, and the one it learned on from, are better together
than either alone.
"""

from __future__ import annotations

import argparse
import io
import json
import tempfile
import zipfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
import onnx
import torch
from onnx import numpy_helper
from torch import Tensor, nn
from transformers import AutoConfig, AutoModel

from extract.reader.training.network import WIDTH, ReaderNet

SMALLEST = 4096  # values: a table below this is kept as it is
STAMP = (1980, 1, 1, 0, 0, 0)


class Encoder(nn.Module):
    """Pieces to vectors."""

    def __init__(self, net: ReaderNet) -> None:
        super().__init__()
        self.encoder = net.encoder

    def forward(self, pieces: Tensor, mask: Tensor) -> Tensor:
        """stretches × width × WIDTH."""
        return self.encoder(input_ids=pieces, attention_mask=mask).last_hidden_state


class Heads(nn.Module):
    """Words' and units' vectors to all scores."""

    def __init__(self, net: ReaderNet) -> None:
        super().__init__()
        self.net = net

    def forward(self, words: Tensor, units: Tensor, unit_of: Tensor) -> tuple[Tensor, ...]:
        """The outputs in the order of ``Outputs``."""
        z = self.net.show(units[None])[0][0]
        return tuple(self.net.heads(words, units, z, unit_of))


NAMES = ("unit_role", "dish", "begin", "where", "role", "things", "figures", "title", "line", "pair")


def load(base: Path, weights: Sequence[Path], layers: int | None) -> ReaderNet:
    """The network with the mean of trained weights; as many layers as ``base`` has where none are given."""
    config = AutoConfig.from_pretrained(base, **({"num_hidden_layers": layers} if layers else {}))
    net = ReaderNet(AutoModel.from_config(config, add_pooling_layer=False))
    states = [torch.load(path, map_location="cpu") for path in weights]
    net.load_state_dict({k: torch.stack([state[k].float() for state in states]).mean(0) for k in states[0]})
    return net.eval()


def graph(
    module: nn.Module,
    inputs: tuple[Any, ...],
    names: list[str],
    outputs: list[str],
    axes: Any,
    *,
    small: bool,
) -> bytes:
    """A module as ONNX."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "full.onnx"
        torch.onnx.export(
            module,
            inputs,
            str(path),
            input_names=names,
            output_names=outputs,
            dynamic_axes=axes,
            opset_version=17,
            dynamo=False,
        )
        return rounded(onnx.load(path)).SerializeToString() if small else path.read_bytes()


def rounded(model: onnx.ModelProto) -> onnx.ModelProto:
    """The model with its large tables as 8-bit integers, a scale for each of their columns (rows, of looked-up tables)."""
    axis_of = {n.input[0]: 0 for n in model.graph.node if n.op_type == "Gather"}
    axis_of |= {n.input[1]: 0 for n in model.graph.node if n.op_type == "Gemm"}
    kept, nodes = [], []
    for table in model.graph.initializer:
        values = numpy_helper.to_array(table)
        if values.dtype != np.float32 or values.size < SMALLEST or values.ndim < 2:
            kept.append(table)
            continue
        axis = axis_of.get(table.name, 1)
        others = tuple(k for k in range(values.ndim) if k != axis)
        scale = np.maximum(np.abs(values).max(axis=others), 1e-9).astype(np.float32) / 127
        shape = [-1 if k == axis else 1 for k in range(values.ndim)]
        whole = np.rint(values / scale.reshape(shape)).astype(np.int8)
        kept += [
            numpy_helper.from_array(whole, table.name + ".whole"),
            numpy_helper.from_array(scale, table.name + ".scale"),
        ]
        inputs = [table.name + ".whole", table.name + ".scale"]
        nodes.append(onnx.helper.make_node("DequantizeLinear", inputs, [table.name], axis=axis))
    del model.graph.initializer[:]
    model.graph.initializer.extend(kept)
    first = list(model.graph.node)
    del model.graph.node[:]
    model.graph.node.extend([*nodes, *first])
    return model


def export(
    base: Path,
    weights: Sequence[Path],
    out: Path,
    layers: int | None,
    card: dict[str, Any],
    *,
    small: bool = True,
) -> None:
    """Write ``out``; two files made of the same weights are the same bytes."""
    net = load(base, weights, layers)
    pieces = torch.randint(5, 100, (2, 17))
    encoder = graph(
        Encoder(net),
        (pieces, torch.ones_like(pieces)),
        ["pieces", "mask"],
        ["vectors"],
        {"pieces": {0: "s", 1: "w"}, "mask": {0: "s", 1: "w"}, "vectors": {0: "s", 1: "w"}},
        small=small,
    )
    words, units, owner = torch.randn(30, WIDTH), torch.randn(4, WIDTH), torch.arange(30) // 8
    axes = {"words": {0: "n"}, "units": {0: "u"}, "unit_of": {0: "n"}}
    axes |= {name: {0: "u" if k < 4 else "n"} for k, name in enumerate(NAMES)}
    heads = graph(
        Heads(net), (words, units, owner), ["words", "units", "unit_of"], list(NAMES), axes, small=small
    )
    biases = {
        "where": net.where_bias.detach().tolist(),
        "near": net.near.weight.detach()[:, 0].tolist(),
        "far": net.far.weight.detach().T.tolist(),
    }
    entries = {
        "encoder.onnx": encoder,
        "heads.onnx": heads,
        "tokenizer.json": (base / "tokenizer.json").read_bytes(),
        "biases.json": json.dumps(biases).encode(),
        "card.json": json.dumps(card, indent=1).encode(),
    }
    out.write_bytes(archived(entries))


def archived(entries: dict[str, bytes]) -> bytes:
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in entries.items():
            archive.writestr(zipfile.ZipInfo(name, STAMP), data, zipfile.ZIP_DEFLATED)
    return buffer.getvalue()


def main() -> None:
    ap = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    (
        ap.add_argument("base", type=Path),
        ap.add_argument("weights", nargs="+", type=Path),
        ap.add_argument("out", type=Path),
    )
    (
        ap.add_argument("--layers", type=int),
        ap.add_argument("--card", type=Path),
        ap.add_argument("--full", action="store_true"),
    )
    a = ap.parse_args()
    np.random.seed(0), torch.manual_seed(0)
    export(
        a.base, a.weights, a.out, a.layers, json.loads(a.card.read_text()) if a.card else {}, small=not a.full
    )
    print(f"{a.out}: {a.out.stat().st_size / 1e6:.1f} MB")


if __name__ == "__main__":
    main()
