"""Commands of `stillfoot`, one file each; `main` reads the command line and starts one of them.

Begin with `main.py`; `table.py` lists the commands: a new one is a file of its own and a row there.
`options.py` has the option readers that commands share, and `play.py` opens the window that the
game, a session and a trial run in.
"""
