"""The scorecard: how well drafts match annotated talks, field by field."""
