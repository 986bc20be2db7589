"""Reads the talks before it is taught: the encoder guesses hidden words of them, and so learns kitchen speech."""

import random
from collections.abc import Sequence
from pathlib import Path

import torch
from tokenizers import Tokenizer
from torch import Tensor, nn
from transformers import BertConfig, BertForMaskedLM, BertModel

from stovescript.speech.words import plain
from stovescript.training.examples import Example

PIECES = 256  # of each stretch
BATCH = 64
HIDDEN = 0.20  # share of pieces to guess; of these 80 % are masked, 10 % shown as another, 10 % as they are
_FIRST_WORD_PIECE = 1000  # ids below are marks
_PAD, _START, _END, _MASK = 0, 101, 102, 103


def warmed_up(
    base: Path, talks: Sequence[Example], target: Path, steps: int, rate: float, seed: int, device: str
) -> Path:
    """The encoder of folder `base` after `steps` batches of masked-word training on the talks, saved in `target`."""
    torch.manual_seed(seed)
    tokenizer = Tokenizer.from_file(str(base / "tokenizer.json"))
    tokenizer.no_padding()
    tokenizer.no_truncation()
    pieces = [
        tokenizer.encode([plain(word) or "?" for word in talk.words], is_pretokenized=True).ids[1:-1] for talk in talks
    ]
    model = BertForMaskedLM(BertConfig.from_pretrained(str(base)))
    model.bert = BertModel.from_pretrained(str(base), add_pooling_layer=False, torch_dtype=torch.float32)
    model.tie_weights()
    model.to(device)
    optimizer = torch.optim.AdamW(model.parameters(), lr=rate, weight_decay=0.01)
    schedule = torch.optim.lr_scheduler.OneCycleLR(optimizer, max_lr=rate, total_steps=steps + 1, pct_start=0.1)
    chance = random.Random(seed)
    for step in range(steps):
        shown, guessed = _batch(pieces, chance)
        shown, guessed = shown.to(device), guessed.to(device)
        with torch.autocast(device_type=device.split(":")[0], dtype=torch.bfloat16, enabled=device != "cpu"):
            loss = model(input_ids=shown, attention_mask=(shown != _PAD).long(), labels=guessed).loss
        optimizer.zero_grad()
        loss.backward()
        nn.utils.clip_grad_norm_(model.parameters(), 1.0)
        optimizer.step()
        schedule.step()
        if (step + 1) % max(1, steps // 4) == 0:
            print(f"warming up {step + 1}/{steps} loss {float(loss.detach()):.3f}", flush=True)
    model.bert.save_pretrained(str(target))
    (target / "tokenizer.json").write_bytes((base / "tokenizer.json").read_bytes())
    return target


def _batch(talks: Sequence[Sequence[int]], chance: random.Random) -> tuple[Tensor, Tensor]:
    """Random stretches with words hidden, and the words to guess (-100 where none), shape (BATCH, PIECES) each."""
    rows = []
    for talk in chance.choices(talks, weights=[len(talk) for talk in talks], k=BATCH):
        start = chance.randrange(max(1, len(talk) - PIECES + 3))
        row = [_START, *talk[start : start + PIECES - 2], _END]
        rows.append([*row, *[_PAD] * (PIECES - len(row))])
    shown = torch.tensor(rows)
    draw = torch.rand(shown.shape)
    hidden = (draw < HIDDEN) & (shown >= _FIRST_WORD_PIECE)
    guessed = torch.where(hidden, shown, torch.full_like(shown, -100))
    other = torch.randint(_FIRST_WORD_PIECE, 30522, shown.shape)
    shown = torch.where(hidden & (draw < 0.8 * HIDDEN), torch.full_like(shown, _MASK), shown)
    return torch.where(hidden & (draw > 0.9 * HIDDEN), other, shown), guessed
