"""The arithmetic of a wedge fitting, on plain values.

Values in, frozen dataclasses out. NumPy, SciPy and the standard library only: nothing here
knows of a database, a request or a clock. Every refusal is a ``MathsError`` whose text is a
sentence a fitter can read. Sideways is positive to the player's right; angles are degrees,
lengths millimetres, carries metres, masses grams unless a name says otherwise.
"""
