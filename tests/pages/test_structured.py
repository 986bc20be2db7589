"""The structured data: a schema.org Recipe that says what the post says, and nothing that is not known.

Outside the project: the types of schema-dts under the TypeScript compiler (npm), pyld's JSON-LD 1.1 expansion (with a
context of our own, as schema.org's can't be fetched), extruct's reading of our HTML page, isodate for ISO 8601, the
standard library's HTML parser.
"""

import json
import subprocess
from datetime import timedelta
from html.parser import HTMLParser

import extruct
import isodate
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pyld import jsonld

from stovescript.pages.forms import Publication
from stovescript.pages.post_page import post_html
from stovescript.pages.structured import iso_duration, recipe_data, script_element, structured
from stovescript.recipe.draft import Draft, Span
from tests.npm import npm_package
from tests.pages.demo import demo_draft
from tests.pages.posts import amount, full_draft

VIDEO = "https://video.example/watch?v=carrots"


def published(draft: Draft | None = None, video: str | None = VIDEO) -> Publication:
    return Publication(draft or full_draft(), "carrots", video)


def without_gaps(draft: Draft) -> Draft:
    return draft.model_copy(update={"gaps": []})


def test_the_whole_draft() -> None:
    data = recipe_data(published(without_gaps(full_draft())))
    assert data["@context"] == "https://schema.org"
    assert data["name"] == "Roasted Carrots and Chickpeas"
    assert data["recipeYield"] == "4 to 6 servings"
    assert data["recipeIngredient"] == [
        "2 (15-ounce) cans chickpeas, drained, rinsed",
        "1 1/2 cups yogurt, plain (optional), divided: 1 cup and about 1/2 cup in step 2",
    ]
    assert data["tool"] == [{"@type": "HowToTool", "name": "Sheet pan, 13 by 18 inches"}]
    tray, dressing = data["recipeInstructions"]  # type: ignore[misc]
    assert (tray["@type"], tray["name"]) == ("HowToSection", "Tray")
    (step,) = tray["itemListElement"]
    assert step["text"].startswith("Roast the chickpeas until they are crisp. Oven: convection bake, ")
    assert step["video"] == {
        "@type": "Clip",
        "name": "Roast the chickpeas",
        "startOffset": 61,
        "endOffset": 95,
        "url": f"{VIDEO}&t=61",
    }
    assert [each["name"] for each in dressing["itemListElement"]] == ["Stir the yogurt"]


def test_the_video_has_the_chapters_as_its_parts() -> None:
    video = recipe_data(published(demo_draft()))["video"]
    assert isinstance(video, dict)
    parts = video["hasPart"]
    assert [part["startOffset"] for part in parts][:2] == [0, 44]
    assert all(part["endOffset"] > part["startOffset"] for part in parts)
    assert all(part["url"] == f"{VIDEO}&t={part['startOffset']}" for part in parts)


def test_without_a_video_no_clip() -> None:
    assert "Clip" not in json.dumps(recipe_data(published(video=None)))
    assert "video" not in recipe_data(published(video=None))


@pytest.mark.parametrize(
    ("update", "gone"),
    [
        ({"title": None}, "name"),
        ({"summary": None}, "description"),
        ({"servings": None}, "recipeYield"),
        ({"ingredients": []}, "recipeIngredient"),
        ({"equipment": []}, "tool"),
        ({"gaps": []}, "creativeWorkStatus"),
    ],
)
def test_what_is_not_known_is_left_out(update: dict[str, object], gone: str) -> None:
    assert gone in recipe_data(published())
    assert gone not in recipe_data(published(full_draft().model_copy(update=update)))


@pytest.mark.parametrize(("field", "gone"), [("prep", "prepTime"), ("cook", "cookTime"), ("total", "totalTime")])
def test_a_time_that_is_not_known_is_left_out(field: str, gone: str) -> None:
    draft = full_draft()
    times = draft.times.model_copy(update={field: None})
    assert gone in recipe_data(published(draft))
    assert gone not in recipe_data(published(draft.model_copy(update={"times": times})))


def test_while_a_question_must_be_answered_the_work_is_a_draft() -> None:
    assert recipe_data(published())["creativeWorkStatus"] == "Draft"


def test_an_empty_draft_makes_nothing() -> None:
    empty = full_draft().model_copy(update={"ingredients": [], "steps": []})
    assert structured(published(empty)) == {}
    assert script_element(published(empty)) == ""


FROM_MEMORY = [
    # What search engines' published guides to structured data ask of Recipe, HowToStep, VideoObject ...: from memory.
    ("Recipe", "name", "required", "when known"),
    ("Recipe", "image", "required", "hers to add: a talk has no picture"),
    ("Recipe", "aggregateRating", "recommended", "hers to add: readers give it"),
    ("Recipe", "author", "recommended", "hers to add: a talk doesn't say it"),
    ("Recipe", "cookTime", "recommended", "when known"),
    ("Recipe", "datePublished", "recommended", "hers to add: set by where she publishes"),
    ("Recipe", "description", "recommended", "when known"),
    ("Recipe", "keywords", "recommended", "hers to add: would be guessed"),
    ("Recipe", "nutrition", "recommended", "left out: an estimate is no statement of hers"),
    ("Recipe", "prepTime", "recommended", "when known"),
    ("Recipe", "recipeCategory", "recommended", "hers to add: would be guessed"),
    ("Recipe", "recipeCuisine", "recommended", "hers to add: would be guessed"),
    ("Recipe", "recipeIngredient", "recommended", "when known"),
    ("Recipe", "recipeInstructions", "recommended", "when known"),
    ("Recipe", "recipeYield", "recommended", "when known"),
    ("Recipe", "suitableForDiet", "recommended", "left out: a diet is never guessed"),
    ("Recipe", "totalTime", "recommended", "when known"),
    ("Recipe", "video", "recommended", "when known"),
    ("HowToSection", "name", "required", "when known"),
    ("HowToSection", "itemListElement", "required", "when known"),
    ("HowToStep", "text", "required", "when known"),
    ("HowToStep", "name", "recommended", "when known"),
    ("HowToStep", "image", "recommended", "hers to add: a talk has no picture"),
    ("HowToStep", "url", "recommended", "left out: the post's address is not known"),
    ("HowToStep", "video", "recommended", "when known"),
    ("VideoObject", "name", "required", "when known"),
    ("VideoObject", "thumbnailUrl", "required", "hers to add: a talk has no picture"),
    ("VideoObject", "uploadDate", "required", "hers to add: a talk doesn't say it"),
    ("VideoObject", "description", "recommended", "when known"),
    ("VideoObject", "contentUrl", "recommended", "left out: the address given is the page of the video"),
    ("VideoObject", "embedUrl", "recommended", "left out: it is not known"),
    ("VideoObject", "duration", "recommended", "left out: captions end before the video does"),
    ("VideoObject", "hasPart", "recommended", "when known"),
    ("Clip", "name", "required", "when known"),
    ("Clip", "startOffset", "required", "when known"),
    ("Clip", "url", "required", "when known"),
    ("Clip", "endOffset", "recommended", "when known"),
]


def found(data: object, kind: str) -> list[dict[str, object]]:
    """Every object of a type, however deep."""
    if isinstance(data, list):
        return [each for part in data for each in found(part, kind)]
    if isinstance(data, dict):
        own = [data] if data.get("@type") == kind else []
        return own + found(list(data.values()), kind)
    return []


@pytest.mark.parametrize(("kind", "name", "asked", "ours"), FROM_MEMORY)
def test_properties_that_search_engines_ask_for(kind: str, name: str, asked: str, ours: str) -> None:
    objects = found(recipe_data(published()), kind)
    assert objects
    assert all((name in each) == (ours == "when known") for each in objects)


@pytest.mark.parametrize(
    ("span", "text", "means"),
    [
        (Span(low=900, high=900), "PT15M", timedelta(minutes=15)),
        (Span(low=1500, high=1800), "PT30M", timedelta(minutes=30)),
        (Span(low=5400, high=5400), "PT1H30M", timedelta(hours=1.5)),
        (Span(low=45, high=45), "PT45S", timedelta(seconds=45)),
        (Span(low=86400, high=86400), "P1D", timedelta(days=1)),
        (Span(low=129600, high=129660), "P1DT12H1M", timedelta(days=1, hours=12, minutes=1)),
    ],
)
def test_durations(span: Span, text: str, means: timedelta) -> None:
    assert iso_duration(span) == text
    assert isodate.parse_duration(text) == means


@given(st.integers(1, 10**7))
def test_every_duration_is_read_back_by_isodate(seconds: int) -> None:
    text = iso_duration(Span(low=seconds, high=seconds))
    assert text and isodate.parse_duration(text) == timedelta(seconds=seconds)


def test_no_time_is_no_duration() -> None:
    assert iso_duration(None) is None
    assert iso_duration(Span(low=0, high=0)) is None


def _schema_org(url: str, options: object) -> dict[str, object]:
    """A context in place of schema.org's own, which can't be fetched: every term is a term of schema.org."""
    assert url.rstrip("/") == "https://schema.org"
    context = {"@context": {"@vocab": "https://schema.org/"}}
    return {"contextUrl": None, "documentUrl": url, "contentType": "application/ld+json", "document": context}


def test_expanded_by_pyld() -> None:
    (recipe,) = jsonld.expand(recipe_data(published()), {"documentLoader": _schema_org})
    assert recipe["@type"] == ["https://schema.org/Recipe"]
    assert recipe["https://schema.org/recipeYield"] == [{"@value": "4 to 6 servings"}]
    (video,) = recipe["https://schema.org/video"]
    first = video["https://schema.org/hasPart"][0]
    assert first["@type"] == ["https://schema.org/Clip"]
    assert first["https://schema.org/startOffset"] == [{"@value": 0}]


@pytest.mark.parametrize("draft", [full_draft(), demo_draft()], ids=["full", "demo"])
def test_read_back_from_our_page_by_extruct(draft: Draft) -> None:
    publication = published(draft)
    (read,) = extruct.extract(post_html(publication), syntaxes=["json-ld"])["json-ld"]
    assert read == recipe_data(publication)


class _Scripts(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)

    def handle_data(self, data: str) -> None:
        self.text += data


def as_a_browser_reads(element: str) -> _Scripts:
    reader = _Scripts()
    reader.feed(f"<html><head>{element}</head></html>")
    reader.close()
    return reader


@pytest.mark.parametrize("said", ["</script><script>alert(1)</script>", "<!--<script>", "]]>", "a & b", "\u2028"])
def test_what_was_said_never_leaves_the_element(said: str) -> None:
    publication = published(full_draft().model_copy(update={"summary": f"so {said} soup"}))
    reader = as_a_browser_reads(script_element(publication))
    assert reader.tags == ["html", "head", "script"]
    assert json.loads(reader.text) == recipe_data(publication)


@given(st.text(st.sampled_from('</script!->&"\\ \u2028ab'), max_size=40))
def test_no_words_break_out_of_the_element(said: str) -> None:
    step = full_draft().steps[0].model_copy(update={"text": f"Stir {said} in."})
    publication = published(full_draft().model_copy(update={"steps": [step], "title": f"soup {said}"}))
    element = script_element(publication)
    inside = element.removeprefix('<script type="application/ld+json">').removesuffix("</script>")
    assert not set("<>&\u2028\u2029") & set(inside)
    assert json.loads(inside) == recipe_data(publication)


_TYPED = 'import type {{ Recipe, WithContext }} from "schema-dts";\nexport const recipe: WithContext<Recipe> = {};\n'
_WRONG = """import type { Recipe, WithContext } from "schema-dts";
// @ts-expect-error: schema.org has no such property, so the check above can fail
export const recipe: WithContext<Recipe> = { "@context": "https://schema.org", "@type": "Recipe", cooks: "PT1H" };
"""


def test_typed_as_schema_dts_has_it(tmp_path) -> None:  # type: ignore[no-untyped-def]
    compiler = npm_package("typescript").parent / ".bin" / "tsc"
    types = npm_package("schema-dts")
    makes = full_draft().model_copy(update={"servings": amount(24, "cookie")})
    for name, publication in {
        "full": published(),
        "no_video": published(video=None),
        "demo": published(demo_draft()),
        "makes": published(makes),
    }.items():
        data = structured(publication)["carrots.recipe.jsonld"]
        (tmp_path / f"{name}.ts").write_text(_TYPED.format(data), encoding="utf-8")
    (tmp_path / "wrong.ts").write_text(_WRONG, encoding="utf-8")
    options = {
        "noEmit": True,
        "strict": True,
        "skipLibCheck": True,
        "types": [],
        "module": "esnext",
        "moduleResolution": "bundler",
        "paths": {"schema-dts": [str(types)]},
    }
    (tmp_path / "tsconfig.json").write_text(json.dumps({"compilerOptions": options}), encoding="utf-8")
    done = subprocess.run([compiler, "-p", tmp_path], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout[:3000]
