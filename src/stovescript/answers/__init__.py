"""The cook's answers and corrections: kept in a small file beside the draft, applied again on every run."""

from stovescript.answers.answers_file import (
    Answers,
    AnswersChanged,
    answers_of,
    back_to,
    put,
    read_answers,
    remove,
    save_answers,
)
from stovescript.answers.apply import Outcome, Unplaced, answered
from stovescript.answers.beside import DraftFiles, files_of, save_round
from stovescript.answers.entry import CHANGES, Change, Entry
from stovescript.answers.heard_file import HeardClause, HeardTalk, heard_text, read_heard
from stovescript.answers.parts import Ref, numbered, ref_of, refs_of
from stovescript.answers.reading import entries_of
from stovescript.answers.reply import answer_to, example
from stovescript.answers.said import NotUnderstood
from stovescript.answers.suggest import default, suggestion
from stovescript.answers.understood import check_entry

__all__ = [
    "CHANGES",
    "Answers",
    "AnswersChanged",
    "Change",
    "DraftFiles",
    "Entry",
    "HeardClause",
    "HeardTalk",
    "NotUnderstood",
    "Outcome",
    "Ref",
    "Unplaced",
    "answer_to",
    "answered",
    "answers_of",
    "back_to",
    "check_entry",
    "default",
    "entries_of",
    "example",
    "files_of",
    "heard_text",
    "numbered",
    "put",
    "read_answers",
    "read_heard",
    "ref_of",
    "refs_of",
    "remove",
    "save_answers",
    "save_round",
    "suggestion",
]
