"""The talk's captions corrected: mis-heard names put right, amounts in digits, every time as it was."""

from collections.abc import Mapping

from stovescript.pages.caption_amounts import amount_edits
from stovescript.pages.caption_lines import CaptionLines
from stovescript.pages.caption_repairs import name_edits
from stovescript.pages.forms import Publication, form
from stovescript.recipe.draft import Draft
from stovescript.talk import Talk


@form("captions")
def captions(publication: Publication) -> Mapping[str, str | bytes]:
    """STEM.captions.vtt; nothing where the talk's captions are not given."""
    if publication.talk is None or not publication.talk.cues:
        return {}
    return {f"{publication.stem}.captions.vtt": corrected(publication.talk, publication.draft)}


def corrected(talk: Talk, draft: Draft) -> str:
    """The captions as WebVTT (W3C), cue for cue as the talk has them, with their times to the millisecond.

    Rolling captions go on rolling: a player shows them as before, and no cue is lost. Of the tags only voices are
    kept; the times of single words would no longer be true of the words that replace them.
    """
    lines = CaptionLines(talk.cues)
    names = name_edits(lines, draft)
    payloads = lines.payloads([*names, *amount_edits(lines, draft, names)])
    cues = [
        f"{vtt_time(cue.start)} --> {vtt_time(cue.end)}\n{payload}\n"
        for cue, payload in zip(talk.cues, payloads, strict=True)
    ]
    return "\n".join(["WEBVTT\n", *cues])


def vtt_time(seconds: float) -> str:
    """A time as WebVTT writes it: 01:02:03.450."""
    thousandths = round(seconds * 1000)
    minutes, rest = divmod(thousandths, 60_000)
    return f"{minutes // 60:02}:{minutes % 60:02}:{rest // 1000:02}.{rest % 1000:03}"
