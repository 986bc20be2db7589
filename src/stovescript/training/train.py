"""Fine-tunes a small pretrained encoder to cut, tag and understand clauses; exports it as ONNX with int8 weights.

One encoder, four heads read at the first piece of each word: the boundary before it, whether a method step
starts, the clause's intent, and the span tag.
"""

import json
import random
import time
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

import torch
from tokenizers import Tokenizer
from torch import Tensor, nn
from torch.utils.data import DataLoader, Dataset
from transformers import BertModel

from stovescript.speech.features import FEATURES, features
from stovescript.speech.labels import BOUNDARIES, INTENTS, TAGS
from stovescript.speech.words import plain
from stovescript.training.examples import IGNORE, Example, varied, window, windows

WINDOW = 340  # words
HEADS = {"boundary": len(BOUNDARIES), "step": 2, "intent": len(INTENTS), "tag": len(TAGS)}
WEIGHTS = {"boundary": 1.0, "step": 0.5, "intent": 1.0, "tag": 1.5}


class Tagger(nn.Module):
    """The encoder with its four heads."""

    def __init__(self, encoder: BertModel) -> None:
        super().__init__()
        self.encoder = encoder
        self.known = nn.Linear(len(FEATURES), encoder.config.hidden_size, bias=False)
        nn.init.normal_(self.known.weight, std=0.02)
        self.dropout = nn.Dropout(0.15)
        width = encoder.config.hidden_size
        self.heads = nn.ModuleDict({name: nn.Linear(width, size) for name, size in HEADS.items()})

    def forward(self, input_ids: Tensor, attention_mask: Tensor, features: Tensor) -> tuple[Tensor, ...]:
        """Logits of each head, shape (batch, pieces, labels); `features` is (batch, pieces, FEATURES), 0 or 1."""
        embedded = self.encoder.embeddings.word_embeddings(input_ids) + self.known(features)
        hidden = self.encoder(inputs_embeds=embedded, attention_mask=attention_mask).last_hidden_state
        hidden = self.dropout(hidden)
        return tuple(head(hidden) for head in self.heads.values())


def train(
    talks: Sequence[Example],
    base: Path,
    epochs: int = 40,
    batch: int = 9,
    rate: float = 5e-5,
    seed: int = 7,
    device: str = "cpu",
    held_out: Sequence[Example] = (),
    noise: bool = True,
    workers: int = 2,
) -> tuple[Tagger, Tokenizer]:
    """A tagger fine-tuned on the talks from the encoder in folder `base`; prints a line per ten epochs."""
    torch.manual_seed(seed)
    tokenizer = Tokenizer.from_file(str(base / "tokenizer.json"))
    tokenizer.no_padding()
    tokenizer.no_truncation()
    encoder = BertModel.from_pretrained(str(base), add_pooling_layer=False, torch_dtype=torch.float32)
    model = Tagger(encoder).to(device)
    slow = [p for n, p in model.named_parameters() if n.startswith("encoder")]
    fast = [p for n, p in model.named_parameters() if not n.startswith("encoder")]
    optimizer = torch.optim.AdamW([{"params": slow, "lr": rate}, {"params": fast, "lr": rate * 20}], weight_decay=0.01)
    per_epoch = sum(-(-len(talk.words) // WINDOW) + 1 for talk in talks)
    steps = max(1, epochs * per_epoch // batch)
    schedule = torch.optim.lr_scheduler.OneCycleLR(
        optimizer, max_lr=[rate, rate * 20], total_steps=steps + 1, pct_start=0.1
    )
    batches = DataLoader(
        Batches(talks, tokenizer, batch, seed, steps, noise), batch_size=None, num_workers=workers, shuffle=False
    )
    started = time.time()
    running = 0.0
    for step, (ids, mask, known, targets) in enumerate(batches):
        model.train()
        ids, mask, known = ids.to(device), mask.to(device), known.to(device)
        targets = {name: target.to(device) for name, target in targets.items()}
        with torch.autocast(device_type=device.split(":")[0], dtype=torch.bfloat16, enabled=device != "cpu"):
            logits = model(ids, mask, known)
        loss = torch.zeros((), device=device)
        for (name, weight), scores in zip(WEIGHTS.items(), logits, strict=True):
            loss = loss + weight * nn.functional.cross_entropy(
                scores.float().flatten(0, 1),
                targets[name].flatten(),
                ignore_index=IGNORE,
                label_smoothing=0.05,
            )
        optimizer.zero_grad()
        loss.backward()
        nn.utils.clip_grad_norm_(model.parameters(), 1.0)
        optimizer.step()
        schedule.step()
        running += float(loss.detach())
        if (step + 1) % max(1, steps // 8) == 0:
            note = f"step {step + 1}/{steps} loss {running / max(1, steps // 8):.3f} {time.time() - started:.0f} s"
            print(note + (f" {evaluate(model, held_out, tokenizer, device)}" if held_out else ""), flush=True)
            running = 0.0
    return model, tokenizer


class Batches(Dataset[tuple[Tensor, Tensor, Tensor, dict[str, Tensor]]]):
    """Batch number n, the same on every run: random windows of the talks, varied."""

    def __init__(
        self, talks: Sequence[Example], tokenizer: Tokenizer, size: int, seed: int, steps: int, noise: bool
    ) -> None:
        self.talks, self.tokenizer, self.size, self.seed, self.steps, self.noise = (
            talks, tokenizer, size, seed, steps, noise,
        )  # fmt: skip
        self.lengths = [len(talk.words) for talk in talks]

    def __len__(self) -> int:
        return self.steps

    def __getitem__(self, number: int) -> tuple[Tensor, Tensor, Tensor, dict[str, Tensor]]:
        chance = random.Random(self.seed * 1_000_003 + number)
        picked = chance.choices(self.talks, weights=self.lengths, k=self.size)
        examples = [window(talk, WINDOW, chance) for talk in picked]
        return collate([varied(e, chance) for e in examples] if self.noise else examples, self.tokenizer, "cpu")


def collate(
    examples: Sequence[Example], tokenizer: Tokenizer, device: str
) -> tuple[Tensor, Tensor, Tensor, dict[str, Tensor]]:
    """Piece ids, mask, features and, per head, targets at the first piece of each word (IGNORE elsewhere)."""
    rows, firsts, owners = [], [], []
    for example in examples:
        encoding = tokenizer.encode([plain(word) or "?" for word in example.words], is_pretokenized=True)
        rows.append(encoding.ids[:512])
        seen: set[int] = set()
        first: list[tuple[int, int]] = []
        for place, word in enumerate(encoding.word_ids[:512]):
            if word is not None and word not in seen:
                seen.add(word)
                first.append((place, word))
        firsts.append(first)
        owners.append(encoding.word_ids[:512])
    longest = max(map(len, rows))
    ids = torch.zeros(len(rows), longest, dtype=torch.long)
    mask = torch.zeros(len(rows), longest, dtype=torch.long)
    known = torch.zeros(len(rows), longest, len(FEATURES))
    for number, (owner, example) in enumerate(zip(owners, examples, strict=True)):
        of_word = features(example.words)
        for place, word in enumerate(owner):
            if word is not None:
                known[number, place, of_word[word]] = 1.0
    targets = {name: torch.full((len(rows), longest), IGNORE) for name in HEADS}
    for number, (row, first, example) in enumerate(zip(rows, firsts, examples, strict=True)):
        ids[number, : len(row)] = torch.tensor(row)
        mask[number, : len(row)] = 1
        for place, word in first:
            for name in HEADS:
                targets[name][number, place] = getattr(example, name)[word]
        # the first word of a window may lie inside a clause: nothing is known before it
        if example.boundary[0] == 0 and first:
            targets["boundary"][number, first[0][0]] = IGNORE
    return (
        ids.to(device),
        mask.to(device),
        known.to(device),
        {name: target.to(device) for name, target in targets.items()},
    )


@torch.no_grad()
def evaluate(model: Tagger, talks: Iterable[Example], tokenizer: Tokenizer, device: str) -> str:
    """Word-level scores on talks: boundary and sentence F1, step F1, intent accuracy, span F1."""
    model.eval()
    hits: dict[str, list[int]] = {name: [0, 0, 0] for name in ("boundary", "sentence", "step", "span")}
    right = total = 0
    for talk in talks:
        for part in windows(talk, WINDOW):
            ids, mask, known, targets = collate([part], tokenizer, device)
            boundary, step, intent, tag = (scores.argmax(-1)[0] for scores in model(ids, mask, known))
            gold = {name: target[0] for name, target in targets.items()}
            known = gold["intent"] != IGNORE
            right += int((intent[known] == gold["intent"][known]).sum())
            total += int(known.sum())
            at = gold["boundary"] != IGNORE
            _count(hits["boundary"], boundary[at] > 0, gold["boundary"][at] > 0)
            _count(hits["sentence"], boundary[at] == 2, gold["boundary"][at] == 2)
            at = gold["step"] != IGNORE
            _count(hits["step"], step[at] == 1, gold["step"][at] == 1)
            mine, true = _spans(tag[known].tolist()), _spans(gold["tag"][known].tolist())
            hits["span"][0] += len(mine & true)
            hits["span"][1] += len(mine)
            hits["span"][2] += len(true)
    scores = " ".join(f"{name} {2 * both / max(1, mine + true):.3f}" for name, (both, mine, true) in hits.items())
    return f"{scores} intent {right / max(1, total):.3f}"


def _count(hits: list[int], mine: Tensor, true: Tensor) -> None:
    hits[0] += int((mine & true).sum())
    hits[1] += int(mine.sum())
    hits[2] += int(true.sum())


def _spans(tags: Sequence[int]) -> set[tuple[int, int, str]]:
    spans, start, label = set(), 0, ""
    for place, number in enumerate([*tags, 0]):
        name = TAGS[number]
        if label and name != f"I-{label}":
            spans.add((start, place, label))
            label = ""
        if name.startswith("B-"):
            start, label = place, name[2:]
    return spans


def export(model: Tagger, base: Path, target: Path, figures: dict[str, object]) -> None:
    """Writes model.onnx (int8 weights per channel), tokenizer.json and labels.json into `target`.

    Only the weights are int8: on processors without 8-bit dot products, whole-number arithmetic on the
    activations as well saturates, and cost one to two points of F1 while it saved little time.
    """
    import onnx
    from onnxruntime.quantization import QuantType, quantize_dynamic

    target.mkdir(parents=True, exist_ok=True)
    model = model.to("cpu").eval()
    full = target / "full.onnx"
    example = torch.ones(1, 8, dtype=torch.long)
    axes = {name: {0: "batch", 1: "pieces"} for name in ("input_ids", "attention_mask", "features", *HEADS)}
    torch.onnx.export(
        model,
        (example, example, torch.zeros(1, 8, len(FEATURES))),
        str(full),
        input_names=["input_ids", "attention_mask", "features"],
        output_names=list(HEADS),
        dynamic_axes=axes,
        opset_version=17,
        dynamo=False,
    )
    quantize_dynamic(str(full), str(target / "model.onnx"), per_channel=True, weight_type=QuantType.QInt8)
    full.unlink()
    onnx.save(weights_only(onnx.load(str(target / "model.onnx"))), str(target / "model.onnx"))
    (target / "tokenizer.json").write_bytes((base / "tokenizer.json").read_bytes())
    (target / "labels.json").write_text(
        json.dumps(
            {
                "boundary": BOUNDARIES,
                "intent": INTENTS,
                "tag": TAGS,
                "features": FEATURES,
                "window": WINDOW,
                **figures,
            },
            indent=1,
        )
        + "\n",
        encoding="utf-8",
    )


def weights_only(model: Any) -> Any:
    """The quantized ONNX model with whole-number products put back to floating point; its weights stay int8."""
    from onnx import helper, numpy_helper

    graph = model.graph
    scales = {one.name: numpy_helper.to_array(one) for one in graph.initializer}
    made_by = {name: node for node in graph.node for name in node.output}
    used_by: dict[str, list[Any]] = {}
    for node in graph.node:
        for name in node.input:
            used_by.setdefault(name, []).append(node)
    widened, products, dropped = [], {}, set()
    for node in graph.node:
        if node.op_type != "MatMulInteger":
            continue
        stored = node.input[1]
        base = stored.removesuffix("_quantized")
        scale, zero = f"{base}_scale", f"{base}_zero_point"
        cast = used_by[node.output[0]][0]
        rescaled = used_by[cast.output[0]][0]
        axis = {"axis": 1} if scales[scale].size > 1 else {}
        widened.append(helper.make_node("DequantizeLinear", [stored, scale, zero], [f"{base}_wide"], **axis))
        activation = made_by[node.input[0]].input[0]
        result = rescaled.output[0]
        products[result] = helper.make_node("MatMul", [activation, f"{base}_wide"], [result])
        dropped |= {id(node), id(cast), id(rescaled)}
    nodes = list(widened)
    for node in graph.node:
        if id(node) not in dropped:
            nodes.append(node)
        elif node.output[0] in products:
            nodes.append(products[node.output[0]])
    outputs = {one.name for one in graph.output}
    while True:
        needed = {name for node in nodes for name in node.input} | outputs
        kept = [node for node in nodes if any(name in needed for name in node.output)]
        if len(kept) == len(nodes):
            break
        nodes = kept
    needed = {name for node in nodes for name in node.input}
    constants = [one for one in graph.initializer if one.name in needed]
    del graph.node[:], graph.initializer[:]
    graph.node.extend(nodes)
    graph.initializer.extend(constants)
    return model
