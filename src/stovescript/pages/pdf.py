"""The post as a PDF: its HTML page, laid out with the style sheet for print by WeasyPrint, an optional extra."""

from collections.abc import Mapping

from stovescript.pages.forms import CannotBeMade, Publication, form


@form("pdf")
def pdf(publication: Publication) -> Mapping[str, str | bytes]:
    """STEM.pdf. Raises CannotBeMade where WeasyPrint, or the Pango library that it needs, is not installed."""
    return {f"{publication.stem}.pdf": pdf_file(publication)}


def pdf_file(publication: Publication) -> bytes:
    """The bytes of the PDF, tagged for screen readers; nothing is fetched for it."""
    try:
        from weasyprint import HTML
    except ImportError:
        raise CannotBeMade("a PDF needs WeasyPrint; install it with: pip install 'stovescript[pdf]'.") from None
    except OSError:
        raise CannotBeMade(
            "a PDF needs the Pango library, which WeasyPrint did not find; install it with your system's packages."
        ) from None
    from stovescript.pages.post_page import post_html

    made: bytes = HTML(string=post_html(publication), url_fetcher=_nothing).write_pdf(pdf_variant="pdf/ua-1")
    return made


def _nothing(address: str) -> Mapping[str, object]:
    """What is fetched for a page that has all it needs in itself."""
    raise ValueError(f"{address} is not fetched")
