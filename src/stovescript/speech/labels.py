"""The labels that the speech model gives to words."""

BOUNDARIES = ("none", "clause", "sentence")
INTENTS = ("does", "states", "alternative", "not-done", "announce", "chat", "promise", "tip")
LABELS = (
    "food", "amount", "size", "prep", "vessel", "appliance", "program", "level", "temp", "time", "cue", "action",
)  # fmt: skip
TAGS = ("O", *(f"{part}-{label}" for label in LABELS for part in "BI"))
