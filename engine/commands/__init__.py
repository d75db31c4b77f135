"""The commands of `stillfoot`: one file a command."""
