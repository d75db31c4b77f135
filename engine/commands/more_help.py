"""What the help of a command says below its options: files, fields, and what else is true of it."""

from __future__ import annotations

import argparse
import textwrap
from collections.abc import Mapping

ITEM = "- "
"""What a line of a list begins with; its further lines are indented as far."""


class Lines(argparse.HelpFormatter):
    """Formatter of a help that fills each line of a description by itself, not all as one."""

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        return "\n".join(
            textwrap.fill(
                line,
                width,
                initial_indent=indent,
                subsequent_indent=indent + " " * len(ITEM) * line.startswith(ITEM),
            )
            for line in text.splitlines()
        )


PLAN = """\
It expects everything to be clean, at your own pace.
Each repetition says in at most six words why it comes.
Fields of a repetition with --json:
- day, number, level, kind, seconds
- why: check-up, steadiness, new, for a fault, personal limit, revision or nothing shown
- reason: the same, as the player reads it"""

REPORT = """\
The page loads nothing from elsewhere, and prints on A4."""

LEVELS = """\
States of a level:
- passed: 8 clean of the last 10, or as its file says
- retained: clean in a check-up on a later day
- well retained: clean after a week and more
- placed: a placing set went past it
- open: it can be practised now
- closed: levels it needs are not passed
- no pedal: no clutch was set up
- no sound: it needs sound, and the volume is off (see under More)
Fields of a level with --json:
- id, title, stage, kind, needs, pedals, state
- partly_luck: the pedals alone may take half of a limit
- answers: the faults that practice of it is good for
- reach: the share of its limits that the best feet stay within
- asks: the time, the way and the blips of a braking zone
- personal_limit: share of the limits that three of four stay within
- personal_best: the lowest personal limit reached twice, 36 apart
- personal_best_day: when it was reached
- personal_counted: repetitions that count for it, at most 36

To make one of your own, begin with an example:
- stillfoot levels --new blip --file mine.toml
- stillfoot levels --check mine.toml
A corner of yours becomes a level by its speeds:
- stillfoot levels --new zone --from 230 --to 90 --shifts 3
A braking zone is measured part by part:
- brake_on, rise, peak_error: the squeeze, from the braking point
- line_error, line_worst, reversals: the way down, blips left out
- line_lag: how late the foot followed the tone, which is no fault
- dip, surge and the like: each blip against a chord along the line
- lateness: the blip farthest from its beat
- off_at: the brake off, from turn-in; a minus is too early
- under_clutch: the least share of a blip with the clutch down
Then put it into the folder levels of your data.
It is text in UTF-8, or in UTF-16 with its mark.
DEVELOPERS.md describes every key."""

PEDALS = """\
The half minute: off, slow press, hold, quick stabs, off.
It finds the size of a step, noise, dead ends and jumps.
It also finds stalls, a pedal that sticks, and uneven reports.
No level is closed by it.
A shift button that was set up is named first.
What --save writes has the name of the device too.
Attach it to a report about your pedals."""

DEMO = """\
An example: stillfoot demo --headless --reps 20 --skill 0.4 --json
Nothing is saved without --data.
Fields of a repetition with --json:
- rep: its place in the set; one that is repeated has the same
- level, kind, target, score, clean, reason, over
- drawn: the level that a mixed one drew
- every measure by its name, then how well it was sampled
The same seed prints the same bytes, on Windows as on Linux.
Numbers have twelve digits."""

SCORE = """\
First comes a summary, then the runs with the deepest dips:
- chord: the line from the brake before a blip to after it
- carry: how far the chord falls or rises, which counts as meant
- early: brake gone before the throttle moved, in points
Over 5 points that is an early roll; its dip counts it.
--against held measures a blip against the brake before its run.
--band says where the brake counts as settled: there, or in a --step.
--runs lists all of them in order of time.
The extra distance is an estimate: flat road, no aero, no lock-up.

The header names time (s), brake and throttle (0 to 100).
It may name a clutch too.
Columns are parted by comma, semicolon or tab.
Decimals have a point or a comma. The text is UTF-8 or UTF-16.
Other recordings are read as they are found:
- The header may stand anywhere in the first 50 lines.
- Lines that begin with #, and a row of units, are left out.
- Units in the header: Time (ms), Brake [%], throttle_pct.
- Numbers may have % behind them.
- Plain names: Brake Pedal, Accelerator, Lap Time.
- Times may be 0:01:02.5. Laps that each begin again are joined.
- Any other step back in time is refused.
- Where a cell is empty, the value before it holds.
- Rows before the first value are left out.
- Pedals from 0 to 1 are scaled if the header says so.
- Without units, a highest value from 0.2 to 1.05 means the same.
- --full 100 leaves them as they are.
- Without a column of times, --rate 60 means 60 rows a second.
What was done to read a file is told in a line.
An option wins over the file, and that is told too.
A pedal in bar or another unit needs --full.
That leaves the pedals in % alone.
What cannot be read is named by its row.

--hold, --step and --release take seconds of the file, laps joined.
That span is at most an hour long.
--keep takes a drive once; one of older definitions is measured again.
--plot draws every blip, the typical one bold, your drills dashed.
Of such a span it draws the deviation."""

RECORD = """\
It ends with Ctrl-C, or when no pedal moved for five minutes.
It never overwrites a file.
A killed program loses about a quarter of a second.
A computer that stops loses at most ten seconds.
Practise in a stationary rig, never in a car on the road."""

BACKUP = """\
The newest three days stay, and the last of three months before.
They take at most a tenth of the free disk.
A copy on the same disk does not outlive the disk."""

RESTORE = """\
An example by date: stillfoot restore 2026-11-28
It needs the game to be closed.
A file of a newer stillfoot is refused, and nothing is changed."""

EXPORT = """\
The files follow RFC 4180, in UTF-8.
A trace has time, percent and what each axis read.
It has a row wherever something changes.
CSV is not read back: make a backup for that.
Before text that a spreadsheet would run stands a '."""

REMEASURE = """\
After an update the game does this by itself.
It copies the history first, as history-before-remeasuring and the day."""

MORE: Mapping[str, str] = {
    "plan": PLAN,
    "report": REPORT,
    "levels": LEVELS,
    "pedals": PEDALS,
    "demo": DEMO,
    "score": SCORE,
    "record": RECORD,
    "backup": BACKUP,
    "restore": RESTORE,
    "export": EXPORT,
    "remeasure": REMEASURE,
}
"""What stands below the options of a command, by its name, for those that have more to say."""
EVERY = """\
stillfoot COMMAND --help has more on each command.
DEVELOPERS.md lists the events, and every rule of the game.
Input that cannot be used ends a command with exit code 2."""
"""What stands below the list of all commands."""
