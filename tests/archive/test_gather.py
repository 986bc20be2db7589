"""What counts as a talk in a folder of ten years, and what is said of everything else."""

import os
import sys
import unicodedata
from pathlib import Path

import pytest

from stovescript.archive.gather import MANIFEST, gather, shown
from stovescript.errors import StovescriptError

POSIX = pytest.mark.skipif(sys.platform == "win32", reason="needs POSIX files")


def made(folder: Path, *names: str) -> Path:
    for name in names:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("WEBVTT\n")
    return folder


def talks(folder: Path) -> dict[str, str | None]:
    """Path → its video."""
    return {talk.path: talk.video for talk in gather(folder, folder / "out").talks}


def passed_over(folder: Path) -> dict[str, str]:
    return {item.path: item.why for item in gather(folder, folder / "out").passed_over}


@pytest.mark.parametrize(
    ("captions", "video", "paired"),
    [
        ("soup.vtt", "soup.mp4", True),
        ("soup.vtt", "soup.MOV", True),
        ("Soup.SRT", "soup.mkv", True),
        ("soup.en.vtt", "soup.mp4", True),  # a language tag before the ending: common practice of caption files
        ("soup.v2.final.srt", "soup.v2.final.webm", True),
        (unicodedata.normalize("NFD", "purée.vtt"), unicodedata.normalize("NFC", "purée.mp4"), True),
        ("soup.vtt", "soups.mp4", False),
        ("soup.vtt", "soup.jpg", False),
        ("soup.vtt", "videos/soup.mp4", False),
    ],
)
def test_captions_are_paired_with_the_video_of_their_stem(
    tmp_path: Path, captions: str, video: str, paired: bool
) -> None:
    assert talks(made(tmp_path, captions, video)) == {captions: video if paired else None}


def test_talks_are_found_in_nested_folders_and_under_odd_names(tmp_path: Path) -> None:
    names = [
        "a/b/c/d/stew.vtt",
        "-rf.vtt",
        "50% off & <b>.srt",
        "with space .sbv",
        'it\'s "quoted"; $HOME.vtt',
        "日本/味噌汁.vtt",
        "👩‍🍳.srt",
        "x.vtt.txt",
    ]
    assert set(talks(made(tmp_path, *names))) == set(names)


def test_the_same_stem_in_two_folders_is_two_talks(tmp_path: Path) -> None:
    found = gather(made(tmp_path, "2019/soup.vtt", "2020/soup.vtt"), tmp_path / "out").talks
    assert [talk.stem for talk in found] == ["2019/soup", "2020/soup"]


@pytest.mark.parametrize(
    ("names", "kept"),
    [
        (["soup.srt", "soup.vtt"], "soup.vtt"),
        (["soup.txt", "soup.sbv"], "soup.sbv"),
        (["Soup.vtt", "soup.VTT"], "Soup.vtt"),  # some disks take these for one name
    ],
)
def test_of_two_captions_with_one_name_the_better_is_drafted_and_the_other_told(
    tmp_path: Path, names: list[str], kept: str
) -> None:
    folder = made(tmp_path, *names)
    assert list(talks(folder)) == [kept]
    (why,) = passed_over(folder).values()
    assert why == f"{kept} has the same name and is drafted; rename one to draft both"


@pytest.mark.parametrize(
    "written",
    [
        ["soup.draft.json", "soup.heard.json", "soup.md"],
        ["soup.scaled.draft.json", "soup.scaled.md"],
        ["soup.post.html", "soup.post.md", "soup.captions.vtt", "soup.chapters.vtt", "soup.chapters.txt"],
        ["soup.recipe.jsonld", "soup.captions.vtt"],
    ],
)
def test_what_stovescript_wrote_is_no_talk(tmp_path: Path, written: list[str]) -> None:
    folder = made(tmp_path, "soup.vtt", "notes.md", "stew.captions.vtt", *written)
    assert set(talks(folder)) == {"soup.vtt", "notes.md", "stew.captions.vtt"}
    assert set(passed_over(folder).values()) == {"stovescript wrote it"}


def test_out_folders_are_not_read(tmp_path: Path) -> None:
    folder = made(tmp_path, "soup.vtt", "out/drafts/soup.md", "earlier/index.txt", f"earlier/{MANIFEST}")
    assert set(talks(folder)) == {"soup.vtt"}
    assert passed_over(folder) == {"earlier": "this is the out folder of an archive"}


def test_hidden_files_are_passed_over(tmp_path: Path) -> None:
    """A disk that was used with another system holds "._soup.vtt" beside "soup.vtt"; common practice."""
    folder = made(tmp_path, "soup.vtt", "._soup.vtt", ".trash/old.vtt")
    assert set(talks(folder)) == {"soup.vtt"}
    assert passed_over(folder) == {"._soup.vtt": "this is a hidden file"}


@POSIX
def test_links_in_a_circle_end(tmp_path: Path) -> None:
    folder = made(tmp_path, "a/soup.vtt")
    (folder / "a" / "back").symlink_to(folder)
    (folder / "a" / "b").symlink_to(folder / "a")
    (folder / "self.vtt").symlink_to(folder / "self.vtt")
    (folder / "self").symlink_to(folder / "self")
    assert set(talks(folder)) == {"a/soup.vtt"}
    told = passed_over(folder)
    assert told["a/back"] == told["a/b"] == "this link leads to a folder that is read already"
    assert "a link may lead nowhere" in told["self.vtt"]


@POSIX
def test_a_link_to_another_disk_is_followed_once(tmp_path: Path) -> None:
    made(tmp_path / "disk", "stew.vtt")
    folder = made(tmp_path / "talks", "soup.vtt")
    (folder / "a").symlink_to(tmp_path / "disk")
    (folder / "b").symlink_to(tmp_path / "disk")
    assert set(talks(folder)) == {"soup.vtt", "a/stew.vtt"}
    assert set(passed_over(folder)) == {"b"}


@POSIX
def test_a_link_that_leads_nowhere_and_a_pipe_are_told(tmp_path: Path) -> None:
    folder = made(tmp_path, "soup.vtt")
    (folder / "lost.vtt").symlink_to(folder / "nowhere.vtt")
    os.mkfifo(folder / "pipe.vtt")
    assert set(talks(folder)) == {"soup.vtt"}
    told = passed_over(folder)
    assert told["lost.vtt"].startswith("it can't be found")
    assert told["pipe.vtt"] == "this is no plain file"


def test_a_folder_that_cannot_be_read_does_not_stop_the_rest(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = made(tmp_path, "soup.vtt", "locked/stew.vtt")
    scandir = os.scandir

    def refuses(path: Path) -> object:
        if Path(path).name == "locked":
            raise PermissionError(13, "Permission denied")
        return scandir(path)

    monkeypatch.setattr(os, "scandir", refuses)
    assert set(talks(folder)) == {"soup.vtt"}
    assert passed_over(folder) == {"locked": "this folder can't be read (permission denied)"}
    monkeypatch.setattr(os, "scandir", lambda path: refuses(Path("locked")))
    with pytest.raises(StovescriptError, match="can't be read"):
        gather(folder, folder / "out")


@pytest.mark.skipif(sys.platform in ("win32", "darwin"), reason="such names exist on Linux only")
def test_no_two_names_are_shown_alike(tmp_path: Path) -> None:
    r"""A byte that is no UTF-8 is shown as "\xe9", so a name that holds just these letters is shown otherwise."""
    names = [
        os.fsdecode(b"pur\xe9e.vtt"),
        r"pur\xe9e.vtt",
        "a\nb.vtt",
        r"a\nb.vtt",
        "a\tb.vtt",
        "purée.vtt",
        "x\u202ey.vtt",
    ]
    folder = made(tmp_path, *names)
    assert set(talks(folder)) == set(names)
    told = {shown(name) for name in names}
    assert len(told) == len(names)
    assert all(text.isprintable() and text.encode() for text in told)
