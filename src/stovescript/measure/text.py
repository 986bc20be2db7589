"""Writes a quantity the way a kitchen does: "1 1/2 cups", "3 to 4 tablespoons", "2 15-ounce cans"."""

from stovescript.kitchen.units import unit_called, units

from .quantity import Quantity

BOTTOMS = (2, 3, 4, 8, 16)
"""Fractions a cook has a measure for; any other part is written with decimals."""
PLACES = 3
EXACT = 1e-6
TIMES = ("week", "day", "hour", "minute", "second")


def to_text(what: Quantity | float, high: float | None = None, unit: str = "", *, approximate: bool = False) -> str:
    """The quantity in words and digits, or the values given: ``to_text(1.5, unit="cup")`` is "1 1/2 cups".

    Parts are written as halves, thirds, quarters, eighths and sixteenths, or else with three decimals;
    what is printed so is read back by ``find_quantities`` as the same value, unit and kind (a count needs its
    food after it).
    """
    if not isinstance(what, Quantity):
        return _about(_with_unit(what, what if high is None else high, unit), approximate, unit)
    return _about(_plain(what), what.approximate, what.unit)


def _plain(quantity: Quantity) -> str:
    low, high, unit = quantity.low, quantity.high, quantity.unit
    if quantity.kind == "temperature":
        return _heat(quantity)
    if quantity.kind == "duration":
        return _time(low, high)
    if quantity.kind == "dimension":
        if quantity.sides:
            return " ".join([" by ".join(number_text(side) for side in quantity.sides), unit]).strip()
        found = unit_called(unit)
        if found is not None and found.dimension != "length":
            return f"{_span(low, high)} {unit} capacity"
        return _with_unit(low, high, unit)
    if quantity.kind == "fraction":
        return f"{_span(low, high)} of the"
    if quantity.kind == "package" and quantity.size is not None:
        size = quantity.size
        each = f"{_span(size.low, size.high, '-to-')}-{size.unit.replace(' ', '-')}"
        if "/" in each:  # "1 1/2-ounce bag" would be one and a half
            each = f"({_with_unit(size.low, size.high, size.unit)})"
        return f"{_span(low, high)} {each} {_named(high, unit)}".strip()
    return _with_unit(low, high, unit)


def _about(text: str, approximate: bool, unit: str) -> str:
    known = unit_called(unit) if unit else None
    return f"about {text}" if approximate and not (known and known.approximate) else text


def number_text(value: float) -> str:
    """ "1 1/2", "2/3", "12", "0.35"."""
    whole = int(value)
    part = value - whole
    if part < EXACT:
        return str(whole)
    for bottom in BOTTOMS:
        top = round(part * bottom)
        if 0 < top < bottom and abs(part - top / bottom) < EXACT:
            return f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"
    if 1 - part < EXACT:
        return str(whole + 1)
    return f"{value:.{PLACES}f}".rstrip("0").rstrip(".")


def _span(low: float, high: float, joint: str = " to ") -> str:
    return number_text(low) if low == high else f"{number_text(low)}{joint}{number_text(high)}"


def _named(value: float, unit: str) -> str:
    known = units().get(unit)
    if known is None:
        return unit
    return known.name if value <= 1 else known.plural


def _with_unit(low: float, high: float, unit: str) -> str:
    if unit in ("F", "C"):
        return f"{_span(low, high)} °{unit}"
    if unit == "gas mark":
        return f"gas mark {_span(low, high)}"
    return f"{_span(low, high)} {_named(high, unit)}".strip()


def _heat(quantity: Quantity) -> str:
    if quantity.unit == "":
        text = f"{_span(quantity.low, quantity.high)} degrees"
    else:
        text = _with_unit(quantity.low, quantity.high, quantity.unit)
    return f"{text} fan" if quantity.fan else text


def _time(low: float, high: float) -> str:
    """Seconds as "1 hour 15 minutes", "20 to 25 minutes", "1 1/2 to 2 hours"."""
    if low == high:
        return _one_time(low)
    name, factor = _shared_unit(low, high)
    return _with_unit(low / factor, high / factor, name)


def _shared_unit(low: float, high: float) -> tuple[str, float]:
    """The largest unit of time in which both ends are whole or halves, and its seconds."""
    for name in TIMES:
        factor = units()[name].factor or 1.0
        if low >= factor and _neat(low / factor) and _neat(high / factor):
            return name, factor
    return "second", 1.0


def _neat(value: float) -> bool:
    """Whole or a half."""
    return abs(value * 2 - round(value * 2)) < EXACT


def _one_time(seconds: float) -> str:
    minute, hour, day = (units()[name].factor or 1.0 for name in ("minute", "hour", "day"))
    if seconds >= day and _neat(seconds / day):
        return _with_unit(seconds / day, seconds / day, "day")
    if seconds >= hour and seconds % minute == 0:
        return _two_units(seconds, hour, "hour", minute, "minute")
    if seconds >= minute:
        return _two_units(seconds, minute, "minute", 1.0, "second")
    return _with_unit(seconds, seconds, "second")


def _two_units(seconds: float, large: float, name: str, small: float, small_name: str) -> str:
    """ "1 hour 15 minutes": ``seconds`` in a large and a small unit."""
    whole, rest = divmod(seconds, large)
    text = _with_unit(whole, whole, name)
    return f"{text} {_with_unit(rest / small, rest / small, small_name)}" if rest > EXACT else text
