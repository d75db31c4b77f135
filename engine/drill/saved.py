"""Guesses of a measure in the history: what a player guessed, and what it was."""

from __future__ import annotations

from drills.measures.definition import DEFINITION
from engine.store import History
from engine.store.cells import Row


def keep_guess(history: History, number: int, value: float, measure: str) -> None:
    """Store the guess of a measure of a repetition, in the measure's unit. Raises StoreError."""
    history.write(
        lambda db: db.execute(
            "INSERT INTO guess SELECT ?, ?, id FROM measure_name WHERE name = ?",
            (number, value, measure),
        ),
        "one guess",
    )


def guesses_on(history: History, level: str) -> list[tuple[float, float]]:
    """Each guess on the level with this id, paired with what was measured, oldest first.

    Only repetitions that count and were measured by today's definition are among them. Raises
    StoreError.
    """
    with history.reading() as db:
        found = db.execute(
            "SELECT repetition.id, guess.value, measure.value FROM guess"
            " JOIN repetition ON repetition.id = guess.repetition"
            " JOIN measure ON measure.repetition = repetition.id AND measure.name = guess.measure"
            " WHERE repetition.level = ? AND feet = 1 AND void = 0 AND measure.value IS NOT NULL"
            " AND definition = ?"
            " ORDER BY repetition.id",
            (level, DEFINITION),
        )
        pairs = []
        for number, guess, value in found:
            row = Row(f"guess of repetition {number}")
            guessed, was = row.number("value", guess), row.number("measure", value)
            pairs.append((guessed or 0.0, was or 0.0))
        return pairs
