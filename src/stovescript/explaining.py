"""What was heard at a place of the talk, or about one food, and what became of it: the reasons behind a draft."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from stovescript.errors import StovescriptError
from stovescript.kitchen import triggers
from stovescript.kitchen.homophones import homophones
from stovescript.kitchen.panel import appliance_named
from stovescript.kitchen.sounds import alike
from stovescript.kitchen.vessels import by_form as vessels_by_form
from stovescript.measure import Quantity, to_text
from stovescript.pages.markdown import plain_amount, setting_text, span_text
from stovescript.recipe.alternatives import measured_asides
from stovescript.recipe.assemble import Understood, understood
from stovescript.recipe.draft import Draft, Evidence
from stovescript.recipe.events import OWN, action_named, measured_foods
from stovescript.recipe.evidence import clause_heard
from stovescript.recipe.fates import Fate, amount_from, fates_of
from stovescript.recipe.naming import Named, name_food, same_food
from stovescript.speech.heard import Clause, Heard, Mention
from stovescript.speech.words import singular
from stovescript.talk import Talk
from stovescript.talk.clock import clock_of, seconds_of
