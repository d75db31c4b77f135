"""`moves`: how far a choice of a menu is from the selected one."""

from typing import Any


def moves(screen: dict[str, Any], label: str) -> int:
    """Number of steps from the selected choice to the wanted one."""
    choices = screen["choices"]
    return int(choices.index(label) - screen.get("selected", 0)) % len(choices)
