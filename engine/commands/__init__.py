"""Commands of `stillfoot`, one file each; `main` reads the command line and starts one.

Begin with `main.py`. `options.py` holds what several commands share, and `play.py` opens the
window that the game, a session and a trial run in.
"""
