"""The trained models that ship with stovescript; each folder has a card."""
