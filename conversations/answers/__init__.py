"""Reading what a beekeeper types, and writing a length the way a person does."""

from conversations.answers.reading import Option, Outcome, Reading, Reason, Unit, read
from conversations.answers.show import written

__all__ = ["Option", "Outcome", "Reading", "Reason", "Unit", "read", "written"]
