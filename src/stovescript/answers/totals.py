"""Sums of an ingredient's uses, when one of them was corrected."""

from stovescript.measure import Quantity
from stovescript.recipe.amounts import is_package, summed, unit_size
from stovescript.recipe.draft import TO_TASTE, Amount, Ingredient, Package
from stovescript.recipe.evidence import as_amount


def total_of(ingredient: Ingredient) -> Amount | None:
    """The sum of the uses in their largest unit; None where one is not measured or they don't convert."""
    amounts = [use.amount for use in ingredient.uses]
    measured = [amount for amount in amounts if amount]
    if not measured or len(measured) < len(amounts):
        return None
    if len(measured) == 1:
        return measured[0]
    if any(amount.unit == TO_TASTE for amount in measured):
        return None
    total = summed(sorted(map(_quantity, measured), key=unit_size, reverse=True))
    return as_amount(total) if total else None


def package_of(ingredient: Ingredient) -> Package | None:
    """The package with its count as the uses have it; None where no use is measured in packages any more."""
    packed = [use.amount for use in ingredient.uses if use.amount and is_package(use.amount.unit)]
    if not packed:
        return None
    size = ingredient.package.size if ingredient.package else None
    return Package(count=packed[0].high, size=size)


def _quantity(amount: Amount) -> Quantity:
    return Quantity("amount", 0, 0, amount.low, amount.high, amount.unit, amount.approximate, amount.said)
