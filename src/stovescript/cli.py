"""The command line: each command is thin, prints for a cook, and fails in one sentence."""

import io
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stovescript.errors import StovescriptError

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stovescript.answers import Outcome
    from stovescript.recipe.draft import Draft

app = typer.Typer(
    help="Turn a filmed cook's talk into a recipe draft, with its evidence and its open questions.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)

TalkArgument = Annotated[
    str,
    typer.Argument(metavar="TALK", help="Captions (.vtt .srt .sbv) or text with time marks; - reads standard input."),
]
TitleOption = Annotated[
    str | None, typer.Option("--title", help="The dish's name, where the talk doesn't say it right.")
]
_TOP = 5


def _print_version(wanted: bool) -> None:
    if wanted:
        from stovescript import __version__

        typer.echo(f"stovescript {__version__}")
        raise typer.Exit


@app.callback()
def whole(
    version: Annotated[
        bool, typer.Option("--version", help="Print the version.", callback=_print_version, is_eager=True)
    ] = False,
) -> None:
    """Turn a filmed cook's talk into a recipe draft, with its evidence and its open questions."""


@app.command()
def draft(
    talk: TalkArgument,
    out: Annotated[Path, typer.Option("--out", help="Folder for the draft.")] = Path(),
    title: TitleOption = None,
) -> None:
    """Draft the recipe with the answers in STEM.answers.toml: writes STEM.draft.json, STEM.md and STEM.heard.json.

    Example: stovescript draft captions.vtt --out drafts
    """
    _load_model_for(talk)
    from stovescript.answers import DraftFiles, read_answers
    from stovescript.drafting import written_draft
    from stovescript.files import write_together
    from stovescript.talk import read_talk

    files = DraftFiles(out, "talk" if talk == "-" else Path(talk).stem)
    kept = (files.draft, files.page, files.heard)
    if talk != "-" and any(file.exists() and Path(talk).exists() and file.samefile(talk) for file in kept):
        raise StovescriptError(f"{talk}: the draft would overwrite the talk; choose another folder with --out.")
    answers = read_answers(files.answers)
    made, texts = written_draft(read_talk(talk), answers, files, title)
    write_together(texts)
    _summary(made.draft, [files.draft, files.page])
    _to_look_at(made)


def _load_model_for(talk: str) -> None:
    """Begins to load the model while the rest is made ready, where there is a talk to hear."""
    if talk == "-" or Path(talk).is_file():
        from stovescript.speech.model import load_ahead

        load_ahead()


@app.command()
def check(
    talk: TalkArgument,
    title: TitleOption = None,
    answers: Annotated[
        Path | None, typer.Option("--answers", help="Her answers; else STEM.answers.toml beside the talk, if there.")
    ] = None,
) -> None:
    """Print only the questions that are open; exit 1 when one of them must be answered.

    Example: stovescript check captions.vtt
    """
    _load_model_for(talk)
    from stovescript.answers import answered, read_answers
    from stovescript.drafting import hear_file
    from stovescript.pages.markdown import clock

    if answers and not answers.is_file():
        raise StovescriptError(f"{answers}: no such file; give the .answers.toml file, or leave out --answers.")
    beside = Path(talk).with_name(f"{Path(talk).stem}.answers.toml") if talk != "-" else None
    file = answers or beside
    entries = read_answers(file).entries if file else ()
    made = answered(hear_file(talk, title).draft, entries).draft
    for gap in made.gaps:
        at = clock(gap.evidence[0].start) if gap.evidence else "-"
        typer.echo(f"{gap.severity:<6} {at:>7}  {gap.question}  [{gap.id}]")
    if any(gap.severity == "must" for gap in made.gaps):
        raise typer.Exit(1)


@app.command()
def explain(
    talk: TalkArgument,
    at: Annotated[
        str | None, typer.Option("--at", metavar="TIME", help="Around this time: 4:10, 1:04:10, 250.")
    ] = None,
    around: Annotated[
        float | None, typer.Option("--around", min=0, metavar="SECONDS", help="How far around it; 20 if not given.")
    ] = None,
    first: Annotated[str | None, typer.Option("--from", metavar="TIME", help="From this time on.")] = None,
    last: Annotated[str | None, typer.Option("--to", metavar="TIME", help="Up to this time.")] = None,
    food: Annotated[
        str | None, typer.Option("--food", metavar="NAME", help="All that was heard of one food, by name or id.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="As data, for other programs.")] = False,
) -> None:
    """Show what was heard at a place of the talk, or of one food, and why it became what it is in the draft.

    Example: stovescript explain captions.vtt --at 0:05
    """
    from dataclasses import asdict

    from stovescript.drafting import numbered_draft
    from stovescript.explaining import explain_between, explain_food
    from stovescript.pages.explanation_page import explanation_lines
    from stovescript.speech.listen import listen
    from stovescript.talk import read_talk
    from stovescript.talk.place import window

    places = [option for option in (at, around, first, last) if option is not None]
    if bool(places) == (food is not None):
        raise StovescriptError("Give a place or a food: --at 4:10, --from 4:00 --to 4:30, or --food cumin.")
    read = read_talk(talk)
    span = window(read, at, around, first, last)
    heard = listen(read)
    made = numbered_draft(heard)
    told = explain_food(heard, made, food) if food is not None else explain_between(heard, made, *span)
    if as_json:
        typer.echo(json.dumps(asdict(told), indent=2, ensure_ascii=False))
    else:
        _styled(explanation_lines(told))


@app.command()
def answer(
    draft_file: Annotated[Path, typer.Argument(metavar="DRAFT", help="A .draft.json file that draft wrote.")],
) -> None:
    """Answer the open questions one by one: kept in STEM.answers.toml, and the draft is written again.

    Example: stovescript answer drafts/captions.draft.json
    """
    from stovescript.answers import answered, files_of, read_answers, read_heard
    from stovescript.answers.question_round import Round, left_text

    files = files_of(draft_file)
    heard, answers = read_heard(files.heard), read_answers(files.answers)
    before = answered(heard.draft, answers.entries)
    _to_look_at(before)
    going = Round(files, heard, answers, typer.echo)
    stopped = False
    try:
        going.run(_typed)
    except KeyboardInterrupt:
        stopped = True
    typer.echo(f"\n{len(going.given)} answered and kept in {files.answers}. Left: {left_text(going.outcome().draft)}.")
    if stopped:
        raise typer.Exit(130)


@app.command()
def desk(
    drafts: Annotated[
        Path,
        typer.Argument(metavar="DRAFT-OR-FOLDER", help="A .draft.json file that draft wrote, or a folder of them."),
    ],
    media: Annotated[
        Path | None, typer.Option("--media", metavar="FILE", help="The video or sound of the talk, to be played.")
    ] = None,
    port: Annotated[int, typer.Option("--port", min=0, max=65535, help="Where to listen; 0 takes a free port.")] = 0,
    host: Annotated[
        str, typer.Option("--host", metavar="ADDRESS", help="Another address than this machine's own.")
    ] = "127.0.0.1",
    no_browser: Annotated[bool, typer.Option("--no-browser", help="Only print the page's address.")] = False,
) -> None:
    """Review a draft in the browser: the talk beside it, its questions answered, its lines corrected.

    Example: stovescript desk drafts/captions.draft.json --media captions.mp4
    """
    from stovescript.desk.serve import serve

    serve(drafts, media, host, port, not no_browser)


@app.command()
def schema() -> None:
    """Print the JSON Schema of a draft.

    Example: stovescript schema > draft.schema.json
    """
    from stovescript.recipe.draft import Draft

    typer.echo(json.dumps(Draft.model_json_schema(mode="serialization"), indent=2))


@app.command()
def scale(
    draft_file: Annotated[Path, typer.Argument(metavar="DRAFT", help="A .draft.json file that draft wrote.")],
    times: Annotated[str | None, typer.Option("--times", help="How many times as much: 2, 1.5, 1/2.")] = None,
    servings: Annotated[str | None, typer.Option("--servings", help="For how many servings, or pieces made.")] = None,
    pan: Annotated[str | None, typer.Option("--pan", help='For another pan: 9x13, "8 inch round", 23x33 cm.')] = None,
    units: Annotated[str | None, typer.Option("--units", help="metric, us, or weight (in grams).")] = None,
    out: Annotated[Path, typer.Option("--out", help="Folder for the new draft.")] = Path(),
) -> None:
    """Make it for another size or in other units: writes STEM.scaled.draft.json and STEM.scaled.md.

    Example: stovescript scale drafts/captions.draft.json --times 2 --units metric --out drafts
    """
    from stovescript.draft_file import read_draft, stem_of
    from stovescript.files import write_together
    from stovescript.pages.scaled_page import scaled_page
    from stovescript.pages.scaling import wanted

    made = wanted(read_draft(draft_file), times=times, servings=servings, pan=pan, units=units)
    stem = stem_of(draft_file)
    data, page = out / f"{stem}.scaled.draft.json", out / f"{stem}.scaled.md"
    write_together({data: made.draft.model_dump_json(indent=2) + "\n", page: scaled_page(made)})
    for change in made.changes:
        if change.kind in ("size", "whole", "rounding", "fill"):
            typer.echo(change.text)
    typer.echo(f"Wrote {data} and {page}")


@app.command()
def write(
    draft_file: Annotated[Path, typer.Argument(metavar="DRAFT", help="A .draft.json file that draft wrote.")],
    to: Annotated[Path, typer.Option("--to", help="Folder for what is written.")],
    only: Annotated[
        list[str] | None, typer.Option("--only", metavar="NAME", help="Write this and nothing else; may be repeated.")
    ] = None,
    video: Annotated[str | None, typer.Option("--video", metavar="URL", help="Where the video is published.")] = None,
    talk: Annotated[
        Path | None, typer.Option("--talk", help="The captions, where they don't lie beside the draft.")
    ] = None,
    with_sources: Annotated[
        bool, typer.Option("--with-sources", help="Show the second at which each statement was heard.")
    ] = False,
    final: Annotated[
        bool, typer.Option("--final", help="Refuse, with exit code 1, while a question must be answered.")
    ] = False,
) -> None:
    """Write what is published: the post and everything that goes with it.

    Example: stovescript write drafts/captions.draft.json --to published --video https://video.example/watch?v=1
    """
    from stovescript.draft_file import read_draft, stem_of
    from stovescript.files import write_together
    from stovescript.pages.publish import must_answer, publication_of, still_open, written

    draft = read_draft(draft_file)
    if final and (open_questions := must_answer(draft)):
        for line in open_questions:
            typer.echo(line)
        raise typer.Exit(1)
    made, kept = publication_of(draft, stem_of(draft_file), draft_file, video, talk, with_sources)
    files = {to / name: content for name, content in written(made, only or ()).items()}
    for file in files:
        if any(file.exists() and file.samefile(each) for each in kept):
            raise StovescriptError(f"{file}: this would be written over; choose another folder with --to.")
    write_together(files)
    typer.echo("Wrote " + ", ".join(str(file) for file in files))
    if told := still_open(draft):
        typer.echo(told)


@app.command()
def shopping(
    draft_files: Annotated[
        list[Path], typer.Argument(metavar="DRAFT...", help="The .draft.json files that draft or scale wrote.")
    ],
    to: Annotated[Path, typer.Option("--to", help="Folder for the list.")] = Path(),
) -> None:
    """List what to buy for one or many drafts: writes shopping.md and shopping.csv (STEM.shopping for one draft).

    Example: stovescript shopping drafts/soup.draft.json drafts/cornbread.draft.json --to lists
    """
    from stovescript.draft_file import read_draft, stem_of
    from stovescript.files import write_together
    from stovescript.pages.shopping import dishes_of, shopping_list
    from stovescript.pages.shopping_page import shopping_files

    found = shopping_list(dishes_of([(stem_of(file), read_draft(file)) for file in draft_files]))
    if not found.items:
        raise StovescriptError(f"{draft_files[0]}: there is nothing to buy in it, as it has no ingredients.")
    name = f"{stem_of(draft_files[0])}.shopping" if len(draft_files) == 1 else "shopping"
    files = {to / file: content for file, content in shopping_files(found, name).items()}
    write_together(files)
    typer.echo("Wrote " + " and ".join(map(str, files)))


@app.command()
def archive(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="Folder with the talks, nested as you like.")],
    out: Annotated[Path, typer.Option("--out", help="Folder for the drafts, the index and the tables.")],
    workers: Annotated[
        int | None, typer.Option("--workers", min=1, help="Processes that draft; one for each processor if not given.")
    ] = None,
    cluster: Annotated[
        str | None, typer.Option("--cluster", metavar="ADDRESS", help="A Dask scheduler whose workers draft instead.")
    ] = None,
) -> None:
    """Draft every talk under a folder, with an index of what each still needs; a second run does only what changed.

    Exit code 1 when a talk could not be drafted; the others are, and the index says why.

    Example: stovescript archive talks --out archive
    """
    from stovescript.archive.run import archive as drafted_in

    done = drafted_in(folder, out, workers, cluster)
    for line in done.lines():
        typer.echo(line)
    if done.failed:
        raise typer.Exit(1)


def _typed(prompt: str) -> str | None:
    """The line that is typed, or read from a file; None at its end."""
    if sys.stdin.isatty():
        try:
            return input(prompt)
        except EOFError:
            return None
    typer.echo(prompt, nl=False)
    line = sys.stdin.readline()
    typer.echo(line.rstrip("\r\n"))
    return line if line else None


def _to_look_at(made: "Outcome") -> None:
    """Answers that found no place, and sentences to look at again."""
    for one in made.unplaced:
        typer.echo(f"Kept in the answers file, but not used: {one.text}.")
    for notice in made.notices:
        typer.echo(notice)


def _styled(lines: "Iterable[tuple[str, str]]") -> None:
    """Lines with a style each: coloured on a terminal, plain elsewhere."""
    from rich.console import Console
    from rich.text import Text

    console = Console(highlight=False, soft_wrap=True)
    for style, text in lines:
        console.print(Text(text, style))


def _summary(made: "Draft", files: list[Path]) -> None:
    """A few coloured lines on a terminal, plain ones elsewhere."""
    from rich.console import Console
    from rich.markup import escape

    from stovescript.pages.markdown import clock

    console = Console(highlight=False, soft_wrap=True)
    by_severity = {name: sum(gap.severity == name for gap in made.gaps) for name in ("must", "should", "could")}
    console.print(f"[bold]{escape(made.title or 'Untitled dish')}[/bold]")
    console.print(
        f"{len(made.ingredients)} ingredients, {len(made.steps)} steps, {len(made.promises)} promises; questions: "
        f"[red]{by_severity['must']} must[/red], [yellow]{by_severity['should']} should[/yellow], "
        f"{by_severity['could']} could"
    )
    for gap in made.gaps[:_TOP]:
        at = clock(gap.evidence[0].start) if gap.evidence else "-"
        console.print(f"  [cyan]{at:>7}[/cyan]  {escape(gap.question)}")
    if len(made.gaps) > _TOP:
        console.print(f"  … and {len(made.gaps) - _TOP} more in {escape(str(files[1]))}")
    console.print("Wrote " + " and ".join(escape(str(file)) for file in files))


def main() -> None:
    """Run the command line; a StovescriptError is told in one sentence."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal that has no curly quotes still gets the words
    try:
        app()
    except StovescriptError as error:
        print(f"stovescript: {' '.join(str(error).split())}", file=sys.stderr)
        sys.exit(error.exit_code)
    except KeyboardInterrupt:
        sys.exit(130)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(141)
