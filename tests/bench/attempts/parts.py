"""All parts of the campaign, in the order of the table."""

from tests.bench.attempts import kills
from tests.bench.attempts.attempt import Part
from tests.bench.attempts.damage import damaged
from tests.bench.attempts.histories import long, usual

KILLS = 25
PARTS = (
    *(
        Part(f"kills {what}", kills.of_practice(what), KILLS, int(what == "five"))
        for what in ("set", "five", "warm-up", "trial")
    ),
    Part("kills record", kills.of_recording, KILLS),
    Part(
        "kills backup",
        kills.of_copy("backup", "backup NEW --data DATA", usual, kills.after_backup),
        KILLS,
        1,
    ),
    Part(
        "kills restore",
        kills.of_copy("restore", "restore BACKUP --data DATA", usual, kills.after_restore),
        KILLS,
        1,
    ),
    Part(
        "kills remeasure",
        kills.of_copy("remeasure", "remeasure --data DATA", long, kills.after_remeasure),
        KILLS,
    ),
    Part("damage", damaged, 300, 8),
)
