"""The files that belong to one draft, and how they are written together after a round of answers."""

from dataclasses import dataclass
from pathlib import Path

from stovescript.answers.answers_file import Answers, saved, unchanged_since
from stovescript.answers.apply import Outcome, answered
from stovescript.answers.heard_file import HeardTalk
from stovescript.errors import StovescriptError
from stovescript.files import write_together
from stovescript.pages.markdown import draft_page

_ENDINGS = (".draft.json", ".heard.json", ".answers.toml")


@dataclass(frozen=True, slots=True)
class DraftFiles:
    """The files of one draft: soup.draft.json, soup.heard.json, soup.answers.toml and soup.md in one folder."""

    folder: Path
    stem: str

    @property
    def draft(self) -> Path:
        return self.folder / f"{self.stem}.draft.json"

    @property
    def heard(self) -> Path:
        return self.folder / f"{self.stem}.heard.json"

    @property
    def answers(self) -> Path:
        return self.folder / f"{self.stem}.answers.toml"

    @property
    def page(self) -> Path:
        return self.folder / f"{self.stem}.md"

    def written(self, made: Outcome) -> dict[Path, str]:
        """The answered draft and its page as files."""
        return {self.draft: made.draft.model_dump_json(indent=2) + "\n", self.page: draft_page(made.draft)}


def files_of(path: Path) -> DraftFiles:
    """The files of the draft that one of them belongs to. Raises StovescriptError for any other file."""
    for ending in _ENDINGS:
        if path.name.endswith(ending) and path.name != ending:
            return DraftFiles(path.parent, path.name.removesuffix(ending))
    raise StovescriptError(f"{path}: give the .draft.json file that stovescript draft wrote.")


def save_round(
    files: DraftFiles, heard: HeardTalk, answers: Answers, made: Outcome | None = None
) -> tuple[Answers, Outcome]:
    """Writes the answers, the answered draft and its page, all or none; `made` is the outcome, where it is known.

    Raises AnswersChanged where somebody else has written to the answers file since these were read.
    """
    made = made or answered(heard.draft, answers.entries)
    unchanged_since(files.answers, answers)
    write_together({files.answers: answers.text, **files.written(made)})
    return saved(answers), made
