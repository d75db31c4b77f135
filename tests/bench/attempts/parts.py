"""All parts of the campaign, in the order of the table."""

from tests.bench.attempts import asleep, disturbed, fuzz, kills, sizes, sound, writes
from tests.bench.attempts.attempt import Part
from tests.bench.attempts.damage import damaged
from tests.bench.attempts.full_in_play import full_in_play
from tests.bench.attempts.histories import long, usual
from tests.bench.attempts.plugging import replugged
from tests.bench.attempts.together import together

KILLS = 25
PARTS = (
    *(
        Part(f"kills {what}", kills.of_practice(what), KILLS, int(what == "five"))
        for what in ("set", "five", "warm-up", "trial")
    ),
    Part("kills record", kills.of_recording, KILLS),
    Part(
        "kills backup",
        kills.of_copy("backup", "backup NEW/copy", usual, kills.after_backup),
        KILLS,
        1,
    ),
    Part(
        "kills restore",
        kills.of_copy("restore", "restore BACKUP", usual, kills.after_restore),
        KILLS,
        1,
    ),
    Part(
        "kills remeasure",
        kills.of_copy("remeasure", "remeasure", long, kills.after_remeasure),
        KILLS,
    ),
    Part("writes fail", writes.failing_step, 120, 6),
    # Not in the short form: as root it needs a checkout that every user can read.
    Part("unwritable", writes.unwritable, 9),
    Part("together", together, 24),
    Part("plugging", replugged, 200, 1),
    Part("full disk", writes.full, 80, 2),
    Part("full in play", full_in_play, 6),
    Part("damage", damaged, 300, 4),
    Part("fuzz lines", fuzz.command_line, 5000, 40),
    Part("fuzz levels", fuzz.level_file, 2500, 20),
    Part("fuzz recordings", fuzz.recording, 1000, 10),
    Part("fuzz names", fuzz.player, 500, 10),
    Part("fuzz restore", fuzz.restored, 400, 5),
    Part("fuzz settings", fuzz.setting, 500, 5),
    Part("fuzz events", fuzz.events, 100, 1),
    Part("disturbed", disturbed.session, 60, 1),
    Part("asleep jump", asleep.jumped, 42, 2),
    Part("asleep night", asleep.night, len(asleep.NIGHTS), 1),
    Part("asleep stopped", asleep.stopped, 3),
    Part("sound", sound.unheard, 2 * len(sound.LOSSES)),
    Part("sizes clipped", sizes.clipped, len(sizes.SIZES)),
    Part("sizes played", sizes.played, 4),
)
