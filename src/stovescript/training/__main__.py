"""`python -m stovescript.training BASE TALKS OUT`: rebuilds the speech model from annotated talks."""

import argparse
import dataclasses
import json
import tempfile
from pathlib import Path

from stovescript.training.examples import Example, example_of


def main() -> None:
    """Trains on every talk of a folder and writes the exported model."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("base", type=Path, help="folder with the pretrained encoder")
    parser.add_argument(
        "talks", type=Path, help="folder with .said files (kept-aside is passed over), or a .json of examples"
    )
    parser.add_argument("out", type=Path, help="folder for the exported model; a .json only writes the examples")
    parser.add_argument("--device", default="cpu")
    parser.add_argument("--epochs", type=int, default=40)
    parser.add_argument("--rate", type=float, default=2e-4)
    parser.add_argument("--seed", type=int, default=11)
    parser.add_argument("--warm-up", type=int, default=1000, help="batches of masked-word training before; 0 for none")
    parser.add_argument("--workers", type=int, default=2, help="processes that prepare batches")
    parser.add_argument("--hold-out", type=int, default=0, help="score every n-th talk instead of training on it")
    options = parser.parse_args()
    talks = _examples(options.talks)
    if options.out.suffix == ".json":
        options.out.write_text(json.dumps([dataclasses.asdict(talk) for talk in talks]), encoding="utf-8")
        return
    from stovescript.training.train import evaluate, export, train
    from stovescript.training.warm_up import warmed_up

    held = talks[:: options.hold_out] if options.hold_out else []
    rest = [talk for talk in talks if not any(talk is other for other in held)]
    with tempfile.TemporaryDirectory() as folder:
        base = options.base
        if options.warm_up:
            base = warmed_up(base, rest, Path(folder), options.warm_up, 3e-4, options.seed, options.device)
        model, tokenizer = train(
            rest,
            base,
            epochs=options.epochs,
            rate=options.rate,
            seed=options.seed,
            device=options.device,
            held_out=held,
            workers=options.workers,
        )
        if held:
            print("held out:", evaluate(model, held, tokenizer, options.device))
        export(model, base, options.out, {"talks": len(rest), "words": sum(len(t.words) for t in rest)})


def _examples(talks: Path) -> list[Example]:
    if talks.suffix == ".json":
        return [Example(**values) for values in json.loads(talks.read_text(encoding="utf-8"))]
    from stovescript.training.corpus import read_said

    return [
        example_of(read_said(path)) for path in sorted(talks.glob("**/*.said")) if path.parent.name != "kept-aside"
    ]


if __name__ == "__main__":
    main()
