"""From a draft to the files of the forms that are asked for."""

from collections.abc import Iterable, Mapping
from pathlib import Path

from stovescript.errors import StovescriptError
from stovescript.pages.forms import FORMS, Form, Publication
from stovescript.pages.video_link import checked
from stovescript.recipe.draft import Draft
from stovescript.talk import read_talk
from stovescript.talk.clock import clock_of

ON_REQUEST = frozenset({"pdf"})
"""Forms that take longer than all others together, and that a reader can print from the post."""


def forms() -> Mapping[str, Form]:
    """Every form by its name. They are loaded here, so that a command that writes none doesn't wait for them."""
    import stovescript.pages.captions
    import stovescript.pages.chapters
    import stovescript.pages.pdf
    import stovescript.pages.post
    import stovescript.pages.promises_page
    import stovescript.pages.shopping_page
    import stovescript.pages.structured
    import stovescript.pages.word_file  # noqa: F401

    return FORMS


def chosen(only: Iterable[str]) -> Mapping[str, Form]:
    """The forms that are asked for; where none is named, all but those made only when named.

    Raises StovescriptError for a name that no form has.
    """
    known = forms()
    names = list(dict.fromkeys(only)) or [name for name in known if name not in ON_REQUEST]
    for name in names:
        if name not in known:
            raise StovescriptError(f'"{name}" is nothing that can be written; --only takes {_listed(known)}.')
    return {name: known[name] for name in names}


def written(publication: Publication, only: Iterable[str] = ()) -> dict[str, str | bytes]:
    """The files of the forms, content by file name.

    Raises StovescriptError where a form is unknown or can't be made here, or where the draft has nothing for any.
    """
    asked = chosen(only)
    files = {name: content for make in asked.values() for name, content in make(publication).items()}
    if not files:
        raise StovescriptError(f"the draft has nothing for {_listed(asked)}; nothing was written.")
    return files


def must_answer(draft: Draft) -> list[str]:
    """The questions that keep the post from being final, a line each; none where it can be published."""
    musts = [gap for gap in draft.gaps if gap.severity == "must"]
    if not musts:
        return []
    lines = [f"Nothing was written: {_questions(len(musts))} must be answered before the post is final."]
    for gap in musts:
        at = clock_of(gap.evidence[0].start) if gap.evidence else "-"
        lines.append(f"  {at:>7}  {gap.question}  [{gap.id}]")
    return lines


def still_open(draft: Draft) -> str:
    """What is said after writing about the questions that are open; "" where none is."""
    must = sum(gap.severity == "must" for gap in draft.gaps)
    other = len(draft.gaps) - must
    if must:
        return f"The pages carry a draft mark: {_questions(must)} must be answered, {other} more are open."
    return f"Nothing must be answered; {_questions(other)} may still be." if other else ""


def _questions(number: int) -> str:
    return "1 question" if number == 1 else f"{number} questions"


def publication_of(
    draft: Draft, stem: str, path: Path, video: str | None, talk: Path | None, with_sources: bool
) -> tuple[Publication, list[Path]]:
    """What is to be published, and the files that it comes from, which must not be written over.

    Raises StovescriptError where the video's address or the talk can't be used.
    """
    address = checked(video) if video is not None else None
    found = _talk_path(draft, path.parent, talk)
    read = read_talk(found) if found else None
    if read and read.sha256 != draft.source.sha256:
        if talk:
            raise StovescriptError(
                f"{talk}: the draft was made from other captions ({draft.source.file}); give those."
            )
        read = None
    made = Publication(draft, stem, address, read, with_sources)
    return made, [path, *([found] if found else [])]


def _talk_path(draft: Draft, folder: Path, given: Path | None) -> Path | None:
    """The captions given, else the file of that name beside the draft, if there is one."""
    if given:
        return given
    beside = folder / Path(draft.source.file).name
    return beside if draft.source.file != "-" and beside.is_file() else None


def _listed(names: Iterable[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} or {last}" if most else last
