"""The reader as a torch module: an encoder over stretches, a recurrent pass over the show, heads for words and units."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
import torch
from torch import Tensor, nn

from extract.reader.labels import FIGURES, ROLES, THINGS, TITLE
from extract.reader.pairs import FAR, NEAR_BUCKETS, buckets
from extract.reader.training.shows import DISHES

WIDTH, HIDDEN, SHARED, PAIR = 384, 192, 320, 64


class Packed(NamedTuple):
    """A batch of shows as the network takes it."""

    pieces: Tensor  # stretches × width, piece ids
    mask: Tensor
    word_of: Tensor  # stretches × width, the word of each piece over the batch, -1 for none
    unit_of: Tensor  # words: the unit of each over the batch
    unit_counts: list[int]
    word_counts: list[int]


class Outputs(NamedTuple):
    """Scores of units (role, dish, begin, where) and of words (role, things, figures, title, optional, parting, pairs)."""

    unit_role: Tensor
    dish: Tensor
    begin: Tensor
    where: Tensor
    role: Tensor
    things: Tensor
    figures: Tensor
    title: Tensor
    line: Tensor
    pair: Tensor


class ReaderNet(nn.Module):
    """See the module. ``encoder`` is a BERT of ``WIDTH``."""

    def __init__(self, encoder: Any) -> None:
        super().__init__()
        self.encoder = encoder
        self.show = nn.LSTM(WIDTH, HIDDEN, 2, batch_first=True, bidirectional=True, dropout=0.2)
        self.drop = nn.Dropout(0.2)
        unit = WIDTH + 2 * HIDDEN
        self.unit_role = nn.Linear(unit, len(ROLES))
        self.dish = nn.Linear(unit, DISHES)
        self.begin = nn.Linear(unit, 3)
        self.where = nn.Linear(unit, PAIR)
        self.where_bias = nn.Parameter(torch.zeros(2))
        self.shared = nn.Linear(WIDTH + unit, SHARED)
        self.role = nn.Linear(SHARED, len(ROLES))
        self.things = nn.Linear(SHARED, len(THINGS))
        self.figures = nn.Linear(SHARED, len(FIGURES))
        self.title = nn.Linear(SHARED, len(TITLE))
        self.line = nn.Linear(SHARED, 1 + 3)
        # amount query, amount key, part query, share query, name key, and the three scores of "none"
        self.pair = nn.Linear(SHARED, 5 * PAIR + 3)
        self.near = nn.Embedding(NEAR_BUCKETS, 1)
        self.far = nn.Embedding(NEAR_BUCKETS, 2)
        nn.init.zeros_(self.near.weight)
        nn.init.zeros_(self.far.weight)

    def words(self, batch: Packed) -> Tensor:
        """words × WIDTH: the mean of each word's pieces."""
        device = self.role.weight.device
        with torch.autocast(device.type, torch.bfloat16, enabled=device.type == "cuda"):
            h = self.encoder(input_ids=batch.pieces, attention_mask=batch.mask).last_hidden_state
        h, owner = h.float().reshape(-1, WIDTH), batch.word_of.reshape(-1)
        inside = owner >= 0
        return mean_by(h[inside], owner[inside], len(batch.unit_of))

    def read(self, words: Tensor, unit_of: Tensor, unit_counts: list[int]) -> Outputs:
        """All scores, from the words' vectors."""
        units = mean_by(words, unit_of, sum(unit_counts))
        padded = nn.utils.rnn.pad_sequence(torch.split(self.drop(units), unit_counts), batch_first=True)
        packed = nn.utils.rnn.pack_padded_sequence(
            padded, torch.tensor(unit_counts), batch_first=True, enforce_sorted=False
        )
        passed, _ = nn.utils.rnn.pad_packed_sequence(self.show(packed)[0], batch_first=True)
        z = torch.cat([passed[i, :n] for i, n in enumerate(unit_counts)])
        return self.heads(words, units, z, unit_of)

    def heads(self, words: Tensor, units: Tensor, z: Tensor, unit_of: Tensor) -> Outputs:
        """The scores of units and words, once the show has been passed over."""
        unit = torch.cat([self.drop(z), self.drop(units)], 1)
        g = self.drop(torch.relu(self.shared(torch.cat([self.drop(words), unit[unit_of]], 1))))
        return Outputs(
            self.unit_role(unit),
            self.dish(unit),
            self.begin(unit),
            self.where(unit),
            self.role(g),
            self.things(g),
            self.figures(g),
            self.title(g),
            self.line(g),
            self.pair(g),
        )

    def amount_scores(self, pair: Tensor, at: np.ndarray, places: np.ndarray) -> Tensor:
        """rows of ``at`` × (1 + places): the scores of "no amount" and of each candidate word, for a food's last word."""
        device = pair.device
        own, keys = (
            pair[torch.as_tensor(at, device=device)],
            pair[torch.as_tensor(places, device=device), PAIR : 2 * PAIR],
        )
        near = self.near(torch.as_tensor(buckets(places[None, :] - at[:, None]), device=device))[..., 0]
        return torch.cat([own[:, 5 * PAIR : 5 * PAIR + 1], own[:, :PAIR] @ keys.T / 8 + near], 1)

    def name_scores(self, pair: Tensor, at: np.ndarray, places: np.ndarray, *, share: bool) -> Tensor:
        """The same for the names of parts, and for the things that shares are taken of."""
        device = pair.device
        own, keys = (
            pair[torch.as_tensor(at, device=device)],
            pair[torch.as_tensor(places, device=device), 4 * PAIR :],
        )
        query = own[:, 3 * PAIR : 4 * PAIR] if share else own[:, 2 * PAIR : 3 * PAIR]
        none = own[:, 5 * PAIR + 1 + share : 5 * PAIR + 2 + share]
        far = self.far(torch.as_tensor(buckets(places[None, :] - at[:, None], FAR), device=device))[
            ..., int(share)
        ]
        return torch.cat([none, query @ keys[:, :PAIR].T / 8 + far], 1)


def mean_by(rows: Tensor, owner: Tensor, count: int) -> Tensor:
    """The mean of the rows of each owner."""
    total = torch.zeros(count, rows.shape[1], device=rows.device).index_add(0, owner, rows)
    number = torch.zeros(count, device=rows.device).index_add(
        0, owner, torch.ones(len(owner), device=rows.device)
    )
    return total / number.clamp(min=1)[:, None]
