"""One run over an archive: what is new or changed is drafted, then the index and the tables are written."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path, PurePosixPath

from stovescript.answers.beside import DraftFiles
from stovescript.archive.fingerprint import digest, fingerprint, model, program
from stovescript.archive.gather import Found, Gathered, gather, shown
from stovescript.archive.index import TABLES, index_files
from stovescript.archive.manifest import Known, Manifest, opened
from stovescript.archive.pools import OpenPool, cluster, each_done, local, processors
from stovescript.archive.progress import progress
from stovescript.archive.rows import Row
from stovescript.archive.work import Drafted, Failed, Job, Outcome
from stovescript.errors import StovescriptError
from stovescript.files import UNFINISHED, write_together
from stovescript.talk import bytes_of

DRAFTS = "drafts"
_BEGUN = re.compile(rf"\..+\.[a-z0-9_]{{8}}{re.escape(UNFINISHED)}")


@dataclass(frozen=True, slots=True)
class Summary:
    """What a run left, in talks; `ready` have no question that must be answered, `gone` were not found any more."""

    talks: int
    drafted: int
    ready: int
    unchanged: int
    failed: int
    gone: int
    passed_over: int
    index: Path

    def lines(self) -> Iterator[str]:
        """What is told at the end of a run."""
        yield f"{self.drafted} of {self.talks} talks are drafted; {self.unchanged} were unchanged"
        yield f"Drafts without a question that must be answered: {self.ready}"
        for told, count in (
            ("Could not be drafted", self.failed),
            ("No longer found, their drafts are kept", self.gone),
            ("Files and folders passed over", self.passed_over),
        ):
            if count:
                yield f"{told}: {count}"
        yield f"Wrote {self.index}"


def archive(folder: Path, out: Path, workers: int | None = None, scheduler: str | None = None) -> Summary:
    """Drafts every talk under FOLDER into OUT, by processes of this machine or the workers of a Dask scheduler.

    Raises StovescriptError where FOLDER can't be read, OUT can't be used, or the cluster can't.
    """
    _check(folder, out)
    with opened(out) as manifest:
        gathered = gather(folder, out)
        talks = {shown(found.path): found for found in gathered.talks}
        _own(manifest, folder, out, talks)
        _sweep(out)
        known = manifest.known()
        due = {talk: found for talk, found in talks.items() if _is_due(known.get(talk), folder, out, found)}
        open_pool: OpenPool = (
            partial(cluster, scheduler) if scheduler else partial(local, min(workers or processors(), len(due)))
        )
        try:
            if due:
                _draft(manifest, folder, out, due, open_pool)
        finally:  # a run that is interrupted shows what it has
            manifest.note_found({talk: found.video and shown(found.video) for talk, found in talks.items()})
            manifest.forget(lambda page: not (out / page).exists())
            index = index_files(manifest, gathered, folder, out)
            write_together({out / name: text for name, text in index.items()})
        return _summary(manifest, gathered, out, len(due))


def _check(folder: Path, out: Path) -> None:
    if not folder.exists():
        raise StovescriptError(f"{folder}: there is no such folder; check its name.")
    if not folder.is_dir():
        raise StovescriptError(f"{folder}: this is no folder; for one talk use stovescript draft.")
    drafts = (out / DRAFTS).resolve()
    if folder.resolve() in (out.resolve(), drafts) or drafts in folder.resolve().parents:
        raise StovescriptError(f"{out}: the drafts would lie among the talks; choose another folder with --out.")


def _own(manifest: Manifest, folder: Path, out: Path, talks: Mapping[str, Found]) -> None:
    """Raises StovescriptError where OUT belongs to another folder, whose drafts would be mixed with these."""
    here, before = shown(str(folder.resolve())), manifest.fact("folder")
    if before not in (None, here):
        kept = [(talks.get(talk), known.captions) for talk, known in manifest.known().items() if known.captions]
        if kept and not any(found and digest(_bytes(folder, found)) == captions for found, captions in kept):
            raise StovescriptError(
                f"{out}: this is the archive of {before}, none of whose talks is in {folder}; choose another --out."
            )
    manifest.know("folder", here)


def _sweep(out: Path) -> None:
    """Takes away what a killed run had begun to write."""
    begun = f".*{UNFINISHED}"
    for path in [*out.glob(begun), *(out / TABLES).glob(begun), *(out / DRAFTS).rglob(begun)]:
        if _BEGUN.fullmatch(path.name):
            path.unlink(missing_ok=True)


def _is_due(known: Known | None, folder: Path, out: Path, found: Found) -> bool:
    """True for a talk that is new or changed, failed for a passing reason, or whose draft has been taken away."""
    try:
        now = fingerprint(bytes_of(folder / found.path), _answers(out, found))
    except StovescriptError:
        return True
    if known is None or known.fingerprint != now:
        return True
    return known.state == "drafted" and not all(path.exists() for path in _made(_files(out, found)))


def _draft(manifest: Manifest, folder: Path, out: Path, due: Mapping[str, Found], open_pool: OpenPool) -> None:
    with progress(len(due)) as tick:

        def fail(talk: str, failed: Failed, row: Row) -> None:
            state = "failed" if due[talk].certain or not failed.unreadable else "no talk"
            page = _files(out, due[talk]).page
            earlier = {"page": page.relative_to(out).as_posix()} if page.exists() else {}
            manifest.keep({"talk": talk, "state": state, "error": failed.sentence, **row, **earlier})
            tick(failed.sentence if state == "failed" else None)

        def jobs() -> Iterator[Job]:
            for talk, found in due.items():
                try:
                    job = _job(folder, out, talk, found)
                except StovescriptError as error:
                    fail(talk, Failed(str(error), lasting=False), {"fingerprint": ""})
                    continue
                yield job

        for job, outcome in each_done(jobs(), open_pool):
            row = _depends(job)
            if isinstance(outcome, Drafted):
                outcome = _written(manifest, out, due[job.path], job, outcome, row)
            if isinstance(outcome, Failed):
                fail(job.path, outcome, row if outcome.lasting else {**row, "fingerprint": ""})
            else:
                tick(None)


def _job(folder: Path, out: Path, talk: str, found: Found) -> Job:
    files = _files(out, found)
    captions, answers = bytes_of(folder / found.path, talk), _answers(out, found)
    return Job(talk, PurePosixPath(found.path).name, captions, files.stem, answers, str(files.answers))


def _made(files: DraftFiles) -> tuple[Path, ...]:
    return files.draft, files.page, files.heard


def _written(manifest: Manifest, out: Path, found: Found, job: Job, drafted: Drafted, row: Row) -> Outcome:
    """Writes a draft and then keeps it; a run that is killed in between drafts that talk again."""
    if not found.certain and not (drafted.rows.ingredients or drafted.rows.talk["steps"]):
        sentence = f"{job.path}: it holds no ingredient and no step, so this text is taken for no talk."
        return Failed(sentence, unreadable=True)
    files = _files(out, found)
    try:
        write_together({files.folder / name: text for name, text in drafted.texts.items()})
    except StovescriptError as error:
        return Failed(str(error), lasting=False)
    row = {
        **row,
        "draft": files.draft.relative_to(out).as_posix(),
        "page": files.page.relative_to(out).as_posix(),
        "drafting_seconds": round(drafted.seconds, 4),
        "notices": "\n".join(drafted.notices) or None,
    }
    manifest.keep({"talk": job.path, "state": "drafted", **row}, drafted.rows)
    return drafted


def _depends(job: Job) -> Row:
    """What the draft of a job depends on."""
    return {
        "fingerprint": fingerprint(job.captions, job.answers),
        "captions_sha256": digest(job.captions),
        "answers_sha256": digest(job.answers) or None,
        "model": model(),
        "program": program(),
    }


def _files(out: Path, found: Found) -> DraftFiles:
    """The files of a talk's draft. Folders are kept, so that talks of one name in two folders stay apart."""
    stem = PurePosixPath(shown(found.stem))
    return DraftFiles(out / DRAFTS / stem.parent, stem.name)


def _bytes(folder: Path, found: Found) -> bytes | None:
    try:
        return bytes_of(folder / found.path)
    except StovescriptError:
        return None


def _answers(out: Path, found: Found) -> bytes | None:
    path = _files(out, found).answers
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise StovescriptError(f"{path}: your answers can't be read ({reason}); correct that and run again.") from None


def _summary(manifest: Manifest, gathered: Gathered, out: Path, due: int) -> Summary:
    count = manifest.counts()
    drafted = count["drafted"]
    return Summary(
        talks=drafted + count["failed"],
        drafted=drafted,
        unchanged=len(gathered.talks) - due,
        failed=count["failed"],
        gone=count["gone"],
        passed_over=len(gathered.passed_over) + count["no talk"],
        ready=count["ready"],
        index=out / "index.html",
    )
