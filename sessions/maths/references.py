"""The one bibliography: what the maths and the rules rest on, where it stands, how it was read.

``first hand`` means read in the source itself or in its stored text, ``second hand`` read as
quoted elsewhere, ``from memory`` known but not read for this project. What is from memory never
counts as published. Facts of the trade have no single source and no entry here: they are marked
common practice where they stand.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

HowRead = Literal["first hand", "second hand", "from memory"]


@dataclass(frozen=True)
class Citation:
    """A source: the citation, where in it (or where it was read), and how it was read."""

    text: str
    where: str
    how_read: HowRead


BIBLIOGRAPHY: Mapping[str, Citation] = MappingProxyType(
    {
        "nist-sp-811": Citation(
            "Thompson and Taylor, Guide for the Use of the International System of Units (SI), "
            "NIST Special Publication 811, 2008 edition",
            "Appendix B.8, factors in bold (exact)",
            "second hand",
        ),
        "club-length-protocol": Citation(
            "R&A Rules and USGA, Club Length test protocol, revision 1.1, 2 January 2007",
            "clauses 4.1 and 5.0.1",
            "first hand",
        ),
        "equipment-rules": Citation(
            "R&A Rules and USGA, The Equipment Rules, effective 1 January 2019",
            "Part 2, sections 1 and 3; Part 7, section 1",
            "first hand",
        ),
        "rules-of-golf": Citation(
            "R&A Rules and USGA, Rules of Golf, effective January 2019",
            "Rule 4.1b(1): no more than fourteen clubs",
            "second hand",
        ),
        "groove-rule": Citation(
            "R&A Rules and USGA, Rules of Golf 2012 to 2015, Appendix II: the grooves of clubs",
            "section 5c(i); that they bind clubs made from 2010 on is from memory",
            "first hand",
        ),
        "nist-norris": Citation(
            "NIST Statistical Reference Datasets, linear regression, Norris",
            "Norris.dat, certified regression statistics (shipped in SciPy's tests)",
            "first hand",
        ),
        "nist-atmwtag": Citation(
            "NIST Statistical Reference Datasets, analysis of variance, AtmWtAg",
            "AtmWtAg.dat, certified values (shipped in SciPy's tests)",
            "first hand",
        ),
        "student-1908": Citation(
            "Student, The probable error of a mean, Biometrika 6 (1908) 1-25: the sleep data",
            "documentation of R's afex package, Welch test of the sleep data",
            "second hand",
        ),
        "berthouex-brown": Citation(
            "Berthouex and Brown, Statistics for Environmental Engineers, 2nd edition",
            "table 21.1",
            "second hand",
        ),
        "bradley-1958": Citation(
            "Bradley, Complete counterbalancing of immediate sequential effects in a Latin square "
            "design, Journal of the American Statistical Association 53 (1958) 525-528",
            "the algorithm's square of order 6",
            "second hand",
        ),
        "crossdes": Citation(
            "Sailer, crossdes: construction of crossover designs (R package)",
            "documentation, printed output of williams(4)",
            "second hand",
        ),
        "williams-1949": Citation(
            "Williams, Experimental designs balanced for the estimation of residual effects of "
            "treatments, Australian Journal of Scientific Research A2 (1949) 149-168",
            "the construction",
            "from memory",
        ),
        "chew-1966": Citation(
            "Chew, Confidence, prediction, and tolerance regions for the multivariate normal "
            "distribution, Journal of the American Statistical Association 61 (1966) 605-617",
            "prediction region of a further observation",
            "from memory",
        ),
        "bayesian-data-analysis": Citation(
            "Gelman, Carlin, Stern, Dunson, Vehtari and Rubin, Bayesian Data Analysis, 3rd edition",
            "chapter 14, conjugate normal linear regression",
            "from memory",
        ),
        "lai-1976": Citation(
            "Lai, On confidence sequences, Annals of Statistics 4 (1976) 265-280",
            "confidence sequences for a normal mean with unknown variance",
            "from memory",
        ),
        "anytime-t": Citation(
            "Wang and Ramdas, Anytime-valid t-tests and confidence sequences for Gaussian means "
            "with unknown variance (2023)",
            "normal mixture of the effect size, scale-invariant likelihood ratio",
            "from memory",
        ),
        "two-sample-bayes": Citation(
            "Gönen, Johnson, Lu and Westfall, The Bayesian two-sample t test, The American "
            "Statistician 59 (2005) 252-257",
            "the Bayes factor for a normal effect size",
            "from memory",
        ),
        "ville-1939": Citation(
            "Ville, Étude critique de la notion de collectif, Gauthier-Villars 1939",
            "the inequality for non-negative martingales",
            "from memory",
        ),
        "brown-forsythe-1974": Citation(
            "Brown and Forsythe, Robust tests for the equality of variances, Journal of the "
            "American Statistical Association 69 (1974) 364-367",
            "the deviations from the median",
            "from memory",
        ),
        "fieller-1954": Citation(
            "Fieller, Some problems in interval estimation, Journal of the Royal Statistical "
            "Society B 16 (1954) 175-185",
            "the interval of a ratio of two means",
            "from memory",
        ),
        "welch-1947": Citation(
            "Welch, The generalization of Student's problem when several different population "
            "variances are involved, Biometrika 34 (1947) 28-35",
            "the approximate degrees of freedom",
            "from memory",
        ),
        "holm-1979": Citation(
            "Holm, A simple sequentially rejective multiple test procedure, Scandinavian Journal "
            "of Statistics 6 (1979) 65-70",
            "the step-down procedure",
            "from memory",
        ),
        "schuirmann-1987": Citation(
            "Schuirmann, A comparison of the two one-sided tests procedure and the power approach, "
            "Journal of Pharmacokinetics and Biopharmaceutics 15 (1987) 657-680",
            "two one-sided tests at 5 % are a 90 % interval within the margin",
            "from memory",
        ),
        "guenther-1981": Citation(
            "Guenther, Sample size formulas for normal theory t tests, The American Statistician "
            "35 (1981) 243-244",
            "the two-sample formula with z^2/4 added",
            "from memory",
        ),
        "universal-inference": Citation(
            "Wasserman, Ramdas and Balakrishnan, Universal inference, Proceedings of the National "
            "Academy of Sciences 117 (2020) 16880-16890",
            "sequential likelihood ratio over the best of the null",
            "from memory",
        ),
        "newcombe-1998": Citation(
            "Newcombe, Interval estimation for the difference between independent proportions, "
            "Statistics in Medicine 17 (1998) 873-890",
            "method 10",
            "from memory",
        ),
        "iglewicz-hoaglin": Citation(
            "Iglewicz and Hoaglin, How to Detect and Handle Outliers, ASQC 1993",
            "modified z score above 3.5",
            "from memory",
        ),
        "bradley-terry": Citation(
            "Agresti, Categorical Data Analysis, 2nd edition 2002: 1987 American League East",
            "tables 10.10 and 10.11; checked in the tests of R's BradleyTerry2",
            "second hand",
        ),
        "ocba": Citation(
            "Chen, Lin, Yücesan and Chick, Simulation budget allocation for further enhancing the "
            "efficiency of ordinal optimization, Discrete Event Dynamic Systems 10 (2000) 251-270",
            "the allocation rule",
            "from memory",
        ),
        "lie-angle-text": Citation(
            "A public article on lie angles, its author not noted",
            "46 degrees of loft, the toe 4 degrees up, 120 yards: about 26 ft",
            "second hand",
        ),
        "swing-weight-text": Citation(
            "Tutelman, Swingweight, a public text on the physics of golf clubs",
            "moment about the fulcrum 14 in from the butt; a point is about 50 gram-inches",
            "first hand",
        ),
        "cipm-2007": Citation(
            "Picard, Davis, Glaser and Fujii, Revised formula for the density of moist air "
            "(CIPM-2007), Metrologia 45 (2008) 149-155",
            "the equation and its constants, as public implementations give them",
            "second hand",
        ),
        "us-standard-1976": Citation(
            "NOAA, NASA and USAF, U.S. Standard Atmosphere, 1976 (below 32 km the same as ICAO's "
            "and ISO 2533:1975)",
            "sea level and troposphere, as the University of California's SCIPP page gives them",
            "second hand",
        ),
        "atmosisa": Citation(
            "MathWorks, Aerospace Toolbox, documentation of atmosisa (ISO 2533)",
            "example at a geopotential height of 1,000 m: T, P and rho as printed",
            "first hand",
        ),
        "smits-smith-1994": Citation(
            "Smits and Smith, A new aerodynamic model of a golf ball in flight, Science and Golf "
            "II (1994) 340-347",
            "drag, lift and spin decay, as US patent 11,230,375 repeats them from a review",
            "second hand",
        ),
        "penner-2001": Citation(
            "Penner, The physics of golf: the optimum loft of a driver, American Journal of "
            "Physics 69 (2001) 563-568",
            "equations 12 to 16: motion and spin decay, as quoted",
            "second hand",
        ),
        "bearman-harvey-1976": Citation(
            "Bearman and Harvey, Golf ball aerodynamics, Aeronautical Quarterly 27 (1976) 112-122",
            "figures 7 and 8, digitised in a public course; two curves fitted to those points",
            "second hand",
        ),
        "lyu-2018": Citation(
            "Lyu, Kensrud, Smith and Tosaya, Aerodynamics of golf balls in still air, Proceedings "
            "2(6) (2018) 238",
            "lift of one ball against the spin factor, as quoted",
            "second hand",
        ),
        "spin-decay-text": Citation(
            "Tutelman, Spin decay, a public text on the physics of golf",
            "landing spin as a share of launch spin of a drive of about 6 s",
            "first hand",
        ),
        "dormand-prince-1980": Citation(
            "Dormand and Prince, A family of embedded Runge-Kutta formulae, Journal of "
            "Computational and Applied Mathematics 6 (1980) 19-26",
            "the coefficients of RK5(4)7M",
            "from memory",
        ),
        "beryllium": Citation(
            "US Code of Federal Regulations, 29 CFR 1910.1024, Beryllium",
            "the standard",
            "from memory",
        ),
    }
)
