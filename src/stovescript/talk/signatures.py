"""Files that are no captions, known by their first bytes.

Source of the signatures: the formats' own specifications (ISO 14496-12, RFC 8794, RFC 3533, ID3v2,
RIFF, PDF, ZIP), written from memory.
"""

import re

HEAD_BYTES = 1024

_VIDEO = "this is a video file, so export its captions as .vtt or .srt and give those"
_AUDIO = "this is an audio file, so have it transcribed with times, as .vtt or .srt, and give that"
_PACKED = "this is a packed archive or an office document, so save its text as .txt, .vtt or .srt"
_DOCUMENT = "this is a formatted document, so save its text as plain text with the time marks"
_PICTURE = "this is a picture, so give the caption file (.vtt, .srt, .sbv, .txt) in its place"

_SIGNATURES = tuple(
    (re.compile(pattern, re.DOTALL), what)
    for pattern, what in (
        (rb"\x00...ftyp(?:M4A|M4B)", _AUDIO),
        (rb"\x00...(?:ftyp|moov|mdat|wide|free|skip)", _VIDEO),  # MP4, QuickTime
        (rb"\x1aE\xdf\xa3", _VIDEO),  # Matroska, WebM (EBML)
        (rb"RIFF....AVI ", _VIDEO),
        (rb"RIFF....WAVE", _AUDIO),
        (rb"OggS.{24,60}?(?:\x80theora|fishead|\x01video)", _VIDEO),
        (rb"OggS", _AUDIO),
        (rb"ID3[\x00-\x0f]", _AUDIO),
        (rb"\xff[\xfb\xfa\xf3\xf2\xf1\xf9]", _AUDIO),  # a bare MPEG or ADTS audio frame
        (rb"fLaC", _AUDIO),
        (rb"FORM....AIF[FC]", _AUDIO),
        (rb"caff\x00", _AUDIO),
        (rb"#!AMR", _AUDIO),
        (rb"FLV\x01", _VIDEO),
        (rb"0&\xb2u\x8ef\xcf\x11", _VIDEO),  # ASF
        (rb"\x00\x00\x01[\xba\xb3]", _VIDEO),  # MPEG program or elementary stream
        (rb"G(?:.{187}G){5}", _VIDEO),  # MPEG transport stream: a sync byte every 188 bytes
        (rb"PK\x03\x04|\x1f\x8b|7z\xbc\xaf|Rar!\x1a|\xd0\xcf\x11\xe0", _PACKED),
        (rb"%PDF-|\{\\rtf", _DOCUMENT),
        (rb"\x89PNG|\xff\xd8\xff|GIF8[79]a|RIFF....WEBP", _PICTURE),
    )
)


def what_it_is(head: bytes) -> str | None:
    """What the file is, with the remedy, where its first bytes say so; None for possible text."""
    return next((what for signature, what in _SIGNATURES if signature.match(head)), None)
