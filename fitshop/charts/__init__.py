"""Five small kinds of chart, as SVG text: ladder, dispersion, intervals, bars, line.

Values in, a string out; nothing here knows what the values mean. On pages the marks carry classes
(static/fitshop/charts.css dresses them in both themes); with ``paper=True`` they carry plain
attributes, black on white, for PDFs and mail. Every chart names itself (title), says its numbers
in words (description) and has a table (``*_table``). Values are in the unit that is shown; they are
rounded here, once, to ``decimals``. ``None`` is "not measured" and is said, never drawn.

A width is in CSS pixels: text is 16 to 18 px when the picture is shown at that width.
"""

from fitshop.charts.bars import Bar, Bars, bars, bars_table
from fitshop.charts.dispersion import Dispersion, Ellipse, Landing, dispersion, dispersion_table
from fitshop.charts.intervals import Intervals, Reach, intervals, intervals_table
from fitshop.charts.ladder import Ladder, Rung, ladder, ladder_table
from fitshop.charts.line import Limit, Line, Stop, line, line_table
from fitshop.charts.words import NOTHING, ChartTable

__all__ = [
    "NOTHING", "Bar", "Bars", "ChartTable", "Dispersion", "Ellipse", "Intervals", "Ladder",
    "Landing", "Limit", "Line", "Reach", "Rung", "Stop", "bars", "bars_table", "dispersion",
    "dispersion_table", "intervals", "intervals_table", "ladder", "ladder_table", "line",
    "line_table",
]  # fmt: skip
