"""The trained tagger: for every word the boundary before it, a step start, the clause's intent and a span tag."""

import json
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stovescript.speech.features import FEATURES, features
from stovescript.speech.words import plain

Scores = NDArray[np.float32]

_LONGEST_WORD = 24  # letters: a pasted link must not fill the window
_MOST_PIECES = 500  # word pieces that the encoder takes at once
_CONTEXT = 40  # words that each window shares with the one before; half of them count for each side
_threads = 2  # of the processor, for one reading


@dataclass(frozen=True, slots=True)
class Reading:
    """Probabilities per word, shape (words, labels) each."""

    boundary: Scores
    step: Scores
    intent: Scores
    tag: Scores


def read(words: list[str]) -> Reading:
    """The model's reading of a talk's words, as captioned."""
    session, tokenizer, window = _loaded()
    pieces = [len(encoding.ids) - 2 for encoding in tokenizer.encode_batch([_shown(word) for word in words])]
    parts: list[Reading] = []
    start = shared = 0
    while start < len(words):
        end = min(len(words), start + window)
        while end - start > 2 and sum(pieces[start:end]) > _MOST_PIECES:
            end -= 1
        first = shared - shared // 2
        shared = min(_CONTEXT, (end - start) // 2) if end < len(words) else 0
        last = end - start - shared // 2
        reading = _window(session, tokenizer, words[start:end])
        parts.append(
            Reading(
                reading.boundary[first:last],
                reading.step[first:last],
                reading.intent[first:last],
                reading.tag[first:last],
            )
        )
        if end == len(words):
            break
        start = end - shared
    return Reading(*(np.concatenate([getattr(part, name) for part in parts]) for name in _HEADS))


def read_with_one_thread() -> None:
    """Readings of this process take one thread from now on: for workers, each of which has a processor to itself.

    To be called before the first reading, which loads the model.
    """
    global _threads
    _threads = 1


_HEADS = ("boundary", "step", "intent", "tag")


def _shown(word: str) -> str:
    """A word as the model is shown it."""
    return plain(word)[:_LONGEST_WORD] or "?"


def _window(session: Any, tokenizer: Any, words: list[str]) -> Reading:
    encoding = tokenizer.encode([_shown(word) for word in words], is_pretokenized=True)
    ids = np.array([encoding.ids], dtype=np.int64)
    known = np.zeros((1, len(encoding.ids), len(FEATURES)), dtype=np.float32)
    of_word = features(words)
    for place, word in enumerate(encoding.word_ids):
        if word is not None:
            known[0, place, of_word[word]] = 1.0
    inputs = {"input_ids": ids, "attention_mask": np.ones_like(ids), "features": known}
    logits = session.run(list(_HEADS), inputs)
    first: dict[int, int] = {}
    for place, word in enumerate(encoding.word_ids):
        if word is not None:
            first.setdefault(word, place)
    places = [first.get(word, 0) for word in range(len(words))]
    return Reading(*(_softmax(scores[0][places]) for scores in logits))


def _softmax(scores: Scores) -> Scores:
    raised = np.exp(scores - scores.max(axis=1, keepdims=True))
    result: Scores = raised / raised.sum(axis=1, keepdims=True)
    return result


@cache
def _loaded() -> tuple[Any, Any, int]:
    import onnxruntime
    from tokenizers import Tokenizer

    folder = files("stovescript.models").joinpath("speech")
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = _threads
    options.log_severity_level = 3
    options.add_session_config_entry("session.disable_quant_qdq", "1")  # weights widen once, at load
    session = onnxruntime.InferenceSession(
        folder.joinpath("model.onnx").read_bytes(), options, providers=["CPUExecutionProvider"]
    )
    tokenizer = Tokenizer.from_str(folder.joinpath("tokenizer.json").read_text(encoding="utf-8"))
    tokenizer.no_padding()
    tokenizer.no_truncation()
    return (
        session,
        tokenizer,
        json.loads(folder.joinpath("labels.json").read_text(encoding="utf-8"))["window"],
    )
