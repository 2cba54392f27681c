"""The fitting room's rows: columns with their units in their names, and named constraints."""

from sessions.models.catalogue import Grip, Head, Shaft
from sessions.models.clubs import BagEntry, Club, OtherClubs
from sessions.models.commands import Command
from sessions.models.comparisons import Comparison, ComparisonArm, Peek
from sessions.models.decisions import Decision, LoftPlan, PlanSlot
from sessions.models.equipment import Adapter, MeasuringDevice, TrialHead, TrialShaft
from sessions.models.interview import Answer, Interview, Overruling
from sessions.models.people import Consent, Player
from sessions.models.specs import Acceptance, FinalSpec, SpecClub, SpecFinding
from sessions.models.trials import (
    Block,
    FileMapping,
    Rating,
    Shot,
    ShotExclusion,
    ShotFile,
    TakenBack,
    Trial,
)
from sessions.models.visits import Conditions, FiguresAnswer, Visit

__all__ = [
    "Acceptance",
    "Adapter",
    "Answer",
    "BagEntry",
    "Block",
    "Club",
    "Command",
    "Comparison",
    "ComparisonArm",
    "Conditions",
    "Consent",
    "Decision",
    "FiguresAnswer",
    "FileMapping",
    "FinalSpec",
    "Grip",
    "Head",
    "Interview",
    "LoftPlan",
    "MeasuringDevice",
    "OtherClubs",
    "Overruling",
    "Peek",
    "PlanSlot",
    "Player",
    "Rating",
    "Shaft",
    "Shot",
    "ShotExclusion",
    "ShotFile",
    "SpecClub",
    "SpecFinding",
    "TakenBack",
    "Trial",
    "TrialHead",
    "TrialShaft",
    "Visit",
]
