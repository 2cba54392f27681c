"""What the maths refuses, each with a sentence a fitter can read. Nothing is computed here."""


class MathsError(ValueError):
    """A value the maths can't work with. ``str(error)`` is the sentence to show."""


class UnitRefused(MathsError):
    """What was typed is not a believable figure in the field's unit."""


class NotAFigure(MathsError):
    """A figure is missing where one is needed, or is not a finite number."""


class UnknownMaking(MathsError):
    """A head's making is not one of the makings that have a bend limit."""


class OrderRefused(MathsError):
    """A hidden order can't be drawn for this many heads."""


class PlanImpossible(MathsError):
    """No loft plan fits; the sentence names the limit that stands in the way."""


class BuildRefused(MathsError):
    """Parts can't be made into the wanted club: a cut, a weight or a length does not work out."""


class AirRefused(MathsError):
    """The air is not described, or not by believable figures."""


class FlightRefused(MathsError):
    """A ball can't be flown with these figures, or never comes down where it should land."""


class CarryNotBrought(MathsError):
    """A carry can't be brought to other air; the sentence says what stands in the way."""
