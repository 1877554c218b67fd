"""`completion`: what makes a shell complete verbs, options and file names."""

from __future__ import annotations

from types import MappingProxyType

import click
from click.shell_completion import get_completion_class

from yokefellow.cli.terminal import say

HELP = """\
Give the script that lets your shell complete verbs, options and file names
when you press Tab; its last lines say how to install it.

\b
Examples:
  $ yokefellow completion bash
  $ yokefellow completion zsh > ~/.yokefellow.zsh
  $ yokefellow completion fish > ~/yokefellow.fish
"""

_INSTALL = MappingProxyType(
    {
        "bash": (
            "yokefellow completion bash > ~/.yokefellow.bash",
            "Add this line to ~/.bashrc:  source ~/.yokefellow.bash",
        ),
        "zsh": (
            "yokefellow completion zsh > ~/.yokefellow.zsh",
            "Add this line to ~/.zshrc, after compinit:  source ~/.yokefellow.zsh",
        ),
        "fish": (
            "mkdir -p ~/.config/fish/completions",
            "yokefellow completion fish > ~/.config/fish/completions/yokefellow.fish",
        ),
    }
)


@click.command("completion", help=HELP)
@click.argument("shell", type=click.Choice(list(_INSTALL)))
@click.pass_context
def completion(ctx: click.Context, shell: str) -> None:
    """Write what makes a shell complete verbs, options and file names."""
    script = get_completion_class(shell)
    if script is None:
        raise click.UsageError(f"There is no completion for {shell}.")
    source = script(ctx.find_root().command, {}, "yokefellow", "_YOKEFELLOW_COMPLETE").source()
    # Last, because zsh wants its own mark on the first line of a script.
    steps = "\n".join(f"#   {step}" for step in _INSTALL[shell])
    say(f"{source.rstrip()}\n\n# To install it:\n{steps}\n# Then open a new terminal.")
