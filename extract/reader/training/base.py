"""The base weights reduced: fewer layers, and a vocabulary cut to the English that cooking talk needs.

    python -m extract.reader.training.base BASE OUT RECORDS... [--size 12000]

BASE is a folder with ``config.json``, ``model.safetensors`` and ``tokenizer.json`` of a BERT encoder 384 wide.
"""

from __future__ import annotations

import argparse
import gzip
import json
import shutil
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

import numpy as np
from safetensors.numpy import load_file, save_file
from tokenizers import Tokenizer

from extract.lexicon import read_lexicon

SPECIAL = ("[PAD]", "[UNK]", "[CLS]", "[SEP]", "[MASK]")


def wanted_pieces(tokenizer: Tokenizer, words: Counter[str], size: int) -> list[str]:
    """The pieces to keep: specials, single letters, then those that the words need, the commonest first."""
    counts: Counter[str] = Counter()
    for word, count in words.items():
        for piece in tokenizer.encode(word, add_special_tokens=False).tokens:
            counts[piece] += count
    vocabulary = tokenizer.get_vocab()
    letters = [
        c for c in "abcdefghijklmnopqrstuvwxyz0123456789.,;:!?'\"()-–—/°%&$£€½¼¾⅓⅔⅛" if c in vocabulary
    ]
    tails = ["##" + c for c in "abcdefghijklmnopqrstuvwxyz0123456789" if "##" + c in vocabulary]
    kept = dict.fromkeys([*SPECIAL, *letters, *tails])
    for piece, _ in counts.most_common():
        if len(kept) >= size:
            break
        kept[piece] = None
    return list(kept)


def count_words(records: Iterable[Path]) -> Counter[str]:
    """How often each word stands in the training talks, with English and the lexicons' foods behind them."""
    from wordfreq import top_n_list, word_frequency

    words: Counter[str] = Counter()
    for path in records:
        with gzip.open(path, "rt") if path.suffix == ".gz" else path.open() as file:
            for row in map(json.loads, file):
                words.update(word.lower() for word in row["words"])
    total = sum(words.values())
    for word in top_n_list("en", 20000):
        words[word] += max(1, round(0.3 * total * word_frequency(word, "en")))
    for row in read_lexicon("foods", columns=("name", "aliases", "forms", "kinds", "sense", "source")):
        for word in " ".join((row["name"], row["aliases"], row["forms"])).replace(";", " ").lower().split():
            words[word] += 2
    return words


def cut(base: Path, out: Path, records: Iterable[Path], size: int, layers: int) -> None:
    """Write the reduced base into ``out``."""
    out.mkdir(parents=True, exist_ok=True)
    tokenizer = Tokenizer.from_file(str(base / "tokenizer.json"))
    pieces = wanted_pieces(tokenizer, count_words(records), size)
    vocabulary = tokenizer.get_vocab()
    weights = load_file(base / "model.safetensors")
    table = weights["embeddings.word_embeddings.weight"]
    weights["embeddings.word_embeddings.weight"] = table[[vocabulary[p] for p in pieces]]
    kept = {
        name: value.astype(np.float16)
        for name, value in weights.items()
        if not (name.startswith("encoder.layer.") and int(name.split(".")[2]) >= layers)
        and "position_ids" not in name
    }
    save_file(kept, out / "model.safetensors", metadata={"format": "pt"})
    config = json.loads((base / "config.json").read_text())
    config |= {"vocab_size": len(pieces), "num_hidden_layers": layers}
    (out / "config.json").write_text(json.dumps(config))
    state = json.loads((base / "tokenizer.json").read_text())
    state["model"]["vocab"] = {piece: i for i, piece in enumerate(pieces)}
    for added in state["added_tokens"]:
        added["id"] = pieces.index(added["content"])
    state["truncation"] = state["padding"] = state["post_processor"] = None
    (out / "tokenizer.json").write_text(json.dumps(state))
    shutil.copy(base / "tokenizer_config.json", out)


def main() -> None:
    ap = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    (
        ap.add_argument("base", type=Path),
        ap.add_argument("out", type=Path),
        ap.add_argument("records", nargs="+", type=Path),
    )
    ap.add_argument("--size", type=int, default=12000), ap.add_argument("--layers", type=int, default=6)
    a = ap.parse_args()
    cut(a.base, a.out, a.records, a.size, a.layers)


if __name__ == "__main__":
    main()
