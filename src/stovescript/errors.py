"""The one exception base class: an error the cook can act on, told in one sentence."""


class StovescriptError(Exception):
    """One clear sentence that names the file, the place and the remedy.

    The command line prints it without a traceback and exits with ``exit_code``.
    """

    exit_code = 2


class TalkError(StovescriptError):
    """The talk could not be read."""
