"""An answer as a person types it to a question, as an entry."""

from stovescript.answers.entry import Entry
from stovescript.answers.parts import Ref, ref_of
from stovescript.answers.said import NotUnderstood, means
from stovescript.answers.understood import check_entry, step_said
from stovescript.recipe.draft import Draft, Gap


def answer_to(gap: Gap, text: str, draft: Draft) -> Entry:
    """The entry for an answer to a question of the draft as it is shown; steps count as they stand there.

    Raises NotUnderstood, with an example.
    """
    words = " ".join(text.split())
    of = Ref("gap", gap.id, gap.about)
    if gap.evidence:
        of = ref_of(draft.model_copy(update={"gaps": [gap]}), gap.id)
    if means(words, "not_needed") or words.lower().startswith("not needed"):
        reason = words[len("not needed") :].strip(" :,;-") if words.lower().startswith("not needed") else ""
        return Entry("dismiss", of, reason=reason or words)
    where = None
    if gap.kind in ("unused", "order") and not means(words, "leave_out"):
        _, number = step_said(words)
        if number > len(draft.steps) or not draft.steps:
            raise NotUnderstood(f"the method has {len(draft.steps)} steps; write one of them, like “in step 2”")
        where = ref_of(draft, draft.steps[number - 1 if number > 0 else -1].id)
    entry = Entry("answer", of, words, where)
    check_entry(entry)
    return entry


def example(gap: Gap) -> str:
    """How an answer to the question may be written."""
    return _EXAMPLES.get(gap.kind, "your own words")


_EXAMPLES = {
    "unmeasured": "1 1/2 cups · 2 15-ounce cans · to taste · leave out",
    "vague": "2 tablespoons · 100 grams · yes, as said",
    "conflict": "2 teaspoons",
    "total_mismatch": "5 cups · 4 cups, then 2 cups",
    "unused": "in step 2 · at the end · leave out",
    "no_size": "14.5 ounces · 9 by 13 inches",
    "no_temperature": "350 F · 180 C · medium-high",
    "no_time": "25-30 minutes · until golden · 10 minutes, until it bubbles",
    "temperature_unit": "Fahrenheit · Celsius · 400 F",
    "no_release": "quick · natural · natural for 10 minutes",
    "no_servings": "6 servings · 24 cookies",
    "no_doneness": "until the juices run clear",
    "promise": "the text or a link",
    "safety": "165 F",
    "order": "after step 2 · in step 2 · not needed",
    "alternative_unmeasured": "2 pounds · the same",
    "title": "the dish's name",
}
