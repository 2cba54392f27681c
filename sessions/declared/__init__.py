"""What a shop may set about fitting: limits of the spec's rules, the visit, the comparison.

A key is a group, a dot and a name; `spec.x` fills the field `x` of
`sessions.rules.facts.SpecLimits`. Defaults are common practice unless a source says otherwise.
The Rules of Golf and the makings that are never bent are not here: no shop sets those.
"""

from fitshop.setting import Setting
from sessions.declared import fitting, spec

SETTINGS: tuple[Setting, ...] = (
    *spec.BENDING,
    *spec.GAPS,
    *spec.LENGTHS,
    *spec.EVIDENCE,
    *spec.THROUGH_THE_SET,
    *fitting.VISIT,
    *fitting.INTERVIEW,
    *fitting.COMPARISON,
    *fitting.EQUIPMENT,
    *fitting.PLAN,
)
