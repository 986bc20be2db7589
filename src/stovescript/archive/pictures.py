"""Two pictures of an archive as inline SVG: questions by kind, and seconds per draft by its words."""

from collections.abc import Sequence
from html import escape

_WIDTH = 460
_BAR = 26  # height of a bar with its gap
_LABEL = 216  # where the bars begin


def bars(title: str, counts: Sequence[tuple[str, int]]) -> str:
    """A bar for each label, in the order given."""
    most = max(count for _, count in counts)
    height = _BAR * len(counts)
    parts = []
    for place, (label, count) in enumerate(counts):
        y = place * _BAR
        length = max(1.0, (_WIDTH - _LABEL - 50) * count / most)
        parts.append(
            f'<text x="{_LABEL - 8}" y="{y + 17}" text-anchor="end">{escape(label)}</text>'
            f'<rect x="{_LABEL}" y="{y + 4}" width="{length:.1f}" height="{_BAR - 8}"/>'
            f'<text x="{_LABEL + length + 6:.1f}" y="{y + 17}">{count}</text>'
        )
    told = "; ".join(f"{label}: {count}" for label, count in counts)
    return _picture(title, told, height, "".join(parts))


def points(title: str, pairs: Sequence[tuple[float, float]], across: str, up: str) -> str:
    """A point for each pair, from 0 to the largest on both axes."""
    left, top, right, bottom = 56, 12, _WIDTH - 16, 232
    height = bottom - top
    most_x, most_y = (max(pair[axis] for pair in pairs) or 1.0 for axis in (0, 1))
    dots = "".join(
        f'<circle cx="{left + (right - left) * x / most_x:.1f}" cy="{bottom - height * y / most_y:.1f}" r="3"/>'
        for x, y in pairs
    )
    axes = (
        f'<path d="M{left} {top}V{bottom}H{right}" fill="none" stroke="currentColor"/>'
        f'<text x="{left - 6}" y="{top + 10}" text-anchor="end">{most_y:.2g}</text>'
        f'<text x="{left - 6}" y="{bottom}" text-anchor="end">0</text>'
        f'<text x="{right}" y="{bottom + 18}" text-anchor="end">{most_x:,.0f} {escape(across)}</text>'
        f'<text x="{left + 8}" y="{top + 10}">{escape(up)}</text>'
    )
    told = f"{len(pairs)} drafts, of at most {most_x:,.0f} {across} and {most_y:.2g} {up}."
    return _picture(title, told, bottom + 26, axes + dots)


def _picture(title: str, told: str, height: int, inside: str) -> str:
    return (
        f'<svg viewBox="0 0 {_WIDTH} {height}" role="img" aria-label="{escape(f"{title}. {told}")}">'
        f'<g aria-hidden="true">{inside}</g></svg>'
    )
