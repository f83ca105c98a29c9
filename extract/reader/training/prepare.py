"""Label every talk of some folders, as captioned, as raw recognition and with stops set by chance, into one file for training."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from extract.language import load_model
from extract.reader.training.form import read_annotated
from extract.reader.training.labels import label
from extract.reader.training.marked import RENDERINGS


def main(out: str, *folders: str) -> None:
    """Write a line of JSON for each talk and rendering."""
    nlp = load_model()
    with Path(out).open("w", encoding="utf-8") as file:
        for folder in folders:
            for path in sorted(Path(folder).glob("*.talk")):
                talk = read_annotated(path)
                for rendering in RENDERINGS:
                    file.write(json.dumps(label(talk, nlp, rendering)) + "\n")


if __name__ == "__main__":
    main(*sys.argv[1:])
