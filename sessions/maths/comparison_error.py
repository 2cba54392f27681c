"""How much a pair of clubs scatters, and how doubtful the difference of their means is.

The spread may be pooled with the player's other blocks of the same swing. Where the pair scatters
more than those (10 % by the F ratio), or one club was hit twice as often as the other, the pair
stands alone, with the larger of the pooled and the unpooled standard error, the latter with Welch's
degrees of freedom (key ``welch-1947``): few wild balls against many tame ones say themselves how
wild they are.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from scipy import special

from sessions.maths.dispersion import mean_and_sd

_OTHERS_SCATTER_LESS = 0.90
# One club hit so many times as often as the other: the pair stands alone.
_LOPSIDED = 2


@dataclass(frozen=True)
class OtherBlocks:
    """The scatter of the player's other blocks of the same swing: squares about their means."""

    squares: float = 0.0
    freedom: int = 0

    @staticmethod
    def of(blocks: Sequence[Sequence[float]]) -> "OtherBlocks":
        squares, freedom = 0.0, 0
        for block in blocks:
            _, sd = mean_and_sd(block)
            if sd is not None:
                squares += (len(block) - 1) * sd**2
                freedom += len(block) - 1
        return OtherBlocks(squares, freedom)

    def spread_and_error(
        self, a: tuple[int, float], b: tuple[int, float]
    ) -> tuple[float, float, int]:
        """Return the spread of one shot, the difference's standard error, and its freedom.

        Args:
            a: club A's number of balls, two or more, and their standard deviation.
            b: club B's, likewise.
        """
        (n_a, sd_a), (n_b, sd_b) = a, b
        share_a, share_b = sd_a**2 / n_a, sd_b**2 / n_b
        unpooled = share_a + share_b
        squares = (n_a - 1) * sd_a**2 + (n_b - 1) * sd_b**2
        freedom = n_a + n_b - 2
        apart = 1 / n_a + 1 / n_b
        if not unpooled:
            return 0.0, 0.0, freedom
        # In shares of the whole: squares of the least scatter there is would come to nothing.
        part_a, part_b = share_a / unpooled, share_b / unpooled
        welch = max(int(1 / (part_a**2 / (n_a - 1) + part_b**2 / (n_b - 1))), 1)
        if self.freedom and self.squares and max(n_a, n_b) < _LOPSIDED * min(n_a, n_b):
            ratio = unpooled / (apart * self.squares / self.freedom)
            if ratio <= _f_quantile(welch, self.freedom):
                freedom += self.freedom
                variance = (squares + self.squares) / freedom
                return math.sqrt(variance), math.sqrt(variance * apart), freedom
        variance = squares / freedom
        # The club that was hit less scatters more: only its own few balls say by how much.
        if n_a != n_b and unpooled > variance * apart:
            return math.sqrt(variance), math.sqrt(unpooled), welch
        return math.sqrt(variance), math.sqrt(variance * apart), freedom


NO_OTHERS = OtherBlocks()


@lru_cache(maxsize=4096)
def _f_quantile(numerator: int, denominator: int) -> float:
    return float(special.fdtri(numerator, denominator, _OTHERS_SCATTER_LESS))
