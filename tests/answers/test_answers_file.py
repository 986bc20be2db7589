"""The answers file: TOML that a person may write herself, and that keeps what she wrote."""

import tomllib
from pathlib import Path

import pytest

from stovescript.answers import (
    CHANGES,
    Answers,
    AnswersChanged,
    Entry,
    back_to,
    entries_of,
    put,
    read_answers,
    remove,
    save_answers,
)
from stovescript.errors import StovescriptError
from tests.answers.kitchen import applied, does, gap, named, soup

BY_HAND = """\
# my carrot soup

[[entry]]   # grandma's can
do = "size"
of = { ingredient = "i4", about = "coconut milk" }
to = "13.5 ounces"  # checked in the shop

# the rest can wait
"""


def by_hand(tmp_path: Path, text: str = BY_HAND) -> Path:
    file = tmp_path / "soup.answers.toml"
    file.write_text(text, encoding="utf-8")
    return file


def test_a_file_written_by_hand_is_applied(tmp_path: Path) -> None:
    outcome = applied(soup(), *read_answers(by_hand(tmp_path)).entries)
    package = named(outcome.draft, "coconut milk").package
    assert outcome.unplaced == () and package and package.size and package.size.low == 13.5


def test_no_file_is_no_answer(tmp_path: Path) -> None:
    assert read_answers(tmp_path / "soup.answers.toml") == Answers()


def test_comments_and_order_survive_edits(tmp_path: Path) -> None:
    draft = soup()
    answers = read_answers(by_hand(tmp_path))
    answers = put(answers, does(draft, "size", "i4", "400 grams"), draft)
    answers = put(answers, does(draft, "title", to="Soup"), draft)
    answers = put(answers, does(draft, "drop", "t1"), draft)
    for comment in ("# my carrot soup", "# grandma's can", "# checked in the shop", "# the rest can wait"):
        assert comment in answers.text
    assert '"400 grams"' in answers.text and "13.5" not in answers.text
    assert [entry["do"] for entry in tomllib.loads(answers.text)["entry"]] == ["size", "title", "drop"]


def test_an_entry_taken_out_leaves_the_comments_around_it(tmp_path: Path) -> None:
    answers = read_answers(by_hand(tmp_path))
    text = remove(answers, answers.entries[0]).text
    assert "# my carrot soup" in text and "# the rest can wait" in text and "entry" not in text


def test_an_entry_keeps_what_it_is_about(tmp_path: Path) -> None:
    draft = soup()
    text = put(Answers(), does(draft, "amount", "i3.u2", "2 cups"), draft).text
    assert tomllib.loads(text)["entry"][0]["of"] == {
        "use": "i3.u2",
        "about": "vegetable stock",
        "at": "1:20",
        "heard": "and one more cup of stock at the end",
    }


def test_saying_it_again_replaces_it() -> None:
    draft = soup()
    answers = put(Answers(), does(draft, "title", to="One"), draft)
    answers = put(answers, does(draft, "title", to="Two"), draft)
    assert [entry.to for entry in answers.entries] == ["Two"]


def test_what_is_added_gets_an_id_that_was_never_used() -> None:
    draft = soup()
    answers = put(Answers(), Entry("add ingredient", to="ginger"), draft)
    answers = put(answers, Entry("add ingredient", to="garlic"), draft)
    assert [entry.new for entry in answers.entries] == ["in1", "in2"]


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ('[[entry]]\ndo = "title"\nto = "Soup', 3, "no TOML"),
        ('[[entry]]\ndo = "title"\nto = ', 3, "no TOML"),
        ('[[entry]]\ndo = "cook"\n', 1, "title"),
        ('# hi\n[[entry]]\ndo = "servings"\n\nto = "some"\n', 5, "6 servings"),
        ('[[entry]]\ndo = "amount"\nof = { use = "i1.u1" }\nto = "two cupz 4"\n', 4, "1 1/2 cups"),
        ('[[entry]]\ndo = "amount"\nof = { step = "s1" }\nto = "2 cups"\n', 3, "use"),
        ('[[entry]]\ndo = "amount"\nof = "i1"\nto = "2 cups"\n', 3, "ingredient"),
        ('[[entry]]\ndo = "rename"\nof = { ingredient = "i1", at = "soon" }\nto = "oil"\n', 3, "4:06"),
        ('[[entry]]\ndo = "title"\nto = "Soup"\nwhen = "now"\n', 4, "when"),
        ('[[entry]]\ndo = "title"\nto = """\nSoup\ndo = "it"\n"""\n[[entry]]\ndo = 3\n', 8, "do"),
        ('[[entry]]\nto = "Soup"\n', 1, "do ="),
        ('[[entries]]\ndo = "title"\n', 1, "[[entry]]"),
        ('[[entry]]\ndo = "add ingredient"\nto = "ginger"\n', 1, "in1"),
        ('[[entry]]\ndo = "answer"\nof = { gap = "no_servings-a5d261" }\nto = "plenty"\n', 4, "24 cookies"),
    ],
)
def test_what_is_wrong_is_told_with_file_line_and_remedy(tmp_path: Path, text: str, line: int, says: str) -> None:
    file = by_hand(tmp_path, text)
    with pytest.raises(StovescriptError) as error:
        read_answers(file)
    sentence = str(error.value)
    assert str(file) in sentence and f"line {line}" in sentence and says in sentence, sentence


def test_another_file_is_no_answers_file(tmp_path: Path) -> None:
    with pytest.raises(StovescriptError, match="no answers file"):
        read_answers(by_hand(tmp_path, 'format = "something/else"\n'))


def test_bytes_that_are_no_text(tmp_path: Path) -> None:
    file = tmp_path / "soup.answers.toml"
    file.write_bytes(b"# fine\n# caf\xe9\n")
    with pytest.raises(StovescriptError, match="line 2"):
        read_answers(file)


def test_a_file_that_somebody_else_changed_is_not_written_over(tmp_path: Path) -> None:
    draft, file = soup(), by_hand(tmp_path)
    mine, theirs = read_answers(file), read_answers(file)
    save_answers(file, put(theirs, does(draft, "title", to="Theirs"), draft))
    with pytest.raises(AnswersChanged, match="read it again"):
        save_answers(file, put(mine, does(draft, "title", to="Mine"), draft))
    assert '"Theirs"' in file.read_text(encoding="utf-8")


def test_undo_gives_back_every_byte(tmp_path: Path) -> None:
    draft, file = soup(), by_hand(tmp_path)
    before = read_answers(file)
    now = save_answers(file, put(before, does(draft, "title", to="Soup"), draft))
    save_answers(file, back_to(now, before))
    assert file.read_text(encoding="utf-8") == BY_HAND


def test_a_dismissed_question_is_one_that_was_answered(tmp_path: Path) -> None:
    draft = soup()
    id_ = gap(draft, "no_size").id
    answers = put(Answers(), does(draft, "answer", id_, "400 g"), draft)
    answers = put(answers, does(draft, "dismiss", id_, reason="any can will do"), draft)
    assert [entry.do for entry in answers.entries] == ["dismiss"]


README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")


def test_the_example_of_the_readme_is_one() -> None:
    example = README.partition("```toml\n")[2].partition("```")[0]
    assert [entry.do for entry in entries_of(example)] == ["answer", "amount", "move"]


@pytest.mark.parametrize("do", CHANGES)
def test_the_readme_tells_of_every_kind_of_entry(do: str) -> None:
    table = README.partition("| `do` | of | `to` |")[2].partition("What an entry adds")[0]
    assert f"`{do}`" in table
