"""What a block of shots was hit with and from, and what makes two blocks no fair comparison."""

from dataclasses import dataclass


@dataclass(frozen=True)
class BlockContext:
    """What a block of shots was hit with and from, in the words stored; None is not noted."""

    swing: str | None = None
    surface: str | None = None
    ground: str | None = None
    wet: str | None = None
    face: str | None = None
    ball: str | None = None
    device: str | None = None
    figures: str | None = None
    carry_got: str | None = None
    grooves: str | None = None
    visit: str | None = None


# What may differ: the field, what is said when it does, what it is called when one side is silent.
_CONTEXT_WORDS: tuple[tuple[str, str, str], ...] = (
    ("swing", "The swings differ", "the swing"),
    ("surface", "The shots were hit from different surfaces", "what the shots were hit from"),
    ("ground", "The ground was not the same", "how firm the ground was"),
    ("wet", "A wet face can halve the spin", "dry or wet"),
    ("face", "The face was not held the same way", "how the face was held"),
    ("ball", "The balls differ", "the ball"),
    ("device", "The figures come from different devices", "the device"),
    ("figures", "The figures don't mean the same", "as flown or normalised"),
    ("carry_got", "The carries were not got the same way", "how the carry was got"),
    (
        "grooves",
        "Fresh grooves beat worn ones on spin, whatever the sole",
        "the grooves",
    ),
    ("visit", "The shots are from two visits", "the visit"),
)


def unfairness(a: BlockContext, b: BlockContext) -> tuple[str, ...]:
    """Return a sentence for each way in which two blocks differ in more than the club.

    What only one block notes counts as a doubt and is said; what neither notes is not.
    """
    said = []
    for name, sentence, called in _CONTEXT_WORDS:
        one, other = getattr(a, name), getattr(b, name)
        if one == other:
            continue
        if one is None or other is None:
            said.append(f"Only one of the two notes {called} ({one or other}).")
        else:
            said.append(f"{sentence}: {one} against {other}.")
    return tuple(said)
