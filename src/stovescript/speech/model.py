"""The trained tagger: for every word the boundary before it, a step start, the clause's intent and a span tag."""

import json
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any, NamedTuple

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
    load_ahead()
    features([])  # makes its tables ready in the meantime
    session, tokenizer, window = _loaded()
    pieces = [len(encoding.ids) - 2 for encoding in tokenizer.encode_batch([_shown(word) for word in words])]
    windows = list(_windows(pieces, window))

    def part(of: _Window) -> Reading:
        reading = _window(session, tokenizer, words[of.start : of.end])
        return Reading(*(getattr(reading, name)[of.first : of.last] for name in _HEADS))

    if min(_threads, len(windows)) > 1:
        with ThreadPoolExecutor(_threads) as pool:  # one processor a window goes faster than several for each
            parts = list(pool.map(part, windows))
    else:
        parts = list(map(part, windows))
    return Reading(*(np.concatenate([getattr(part, name) for part in parts]) for name in _HEADS))


class _Window(NamedTuple):
    """Words [start, end) that are read at once, of which the readings [first, last) count."""

    start: int
    end: int
    first: int
    last: int


def _windows(pieces: list[int], longest: int) -> Iterator[_Window]:
    """Windows over words of so many pieces each; neighbours share words, of which each reads its own half."""
    start = shared = 0
    while start < len(pieces):
        end = min(len(pieces), start + longest)
        while end - start > 2 and sum(pieces[start:end]) > _MOST_PIECES:
            end -= 1
        first = shared - shared // 2
        shared = min(_CONTEXT, (end - start) // 2) if end < len(pieces) else 0
        yield _Window(start, end, first, end - start - shared // 2)
        if end == len(pieces):
            return
        start = end - shared


def load_ahead() -> None:
    """Begins to load the model in the background, while a talk is read and the tables are made ready."""
    _ahead()


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


def _loaded() -> tuple[Any, Any, int]:
    return _ahead().result()


@cache
def _ahead() -> "Future[tuple[Any, Any, int]]":
    return ThreadPoolExecutor(1).submit(_load)


def _load() -> tuple[Any, Any, int]:
    import onnxruntime
    from tokenizers import Tokenizer

    folder = files("stovescript.models").joinpath("speech")
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1
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
