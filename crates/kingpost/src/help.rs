//! The command line's help, in the words of the messages: `help-<command>` and `arg-<argument>`.

use clap::{Arg, Command};
use words::Words;

/// The command with its help, and every command below it.
pub(crate) fn in_words(command: Command, words: &Words) -> Command {
    dressed(command, "", words)
}

fn dressed(command: Command, above: &str, words: &Words) -> Command {
    let path = if above.is_empty() {
        command.get_name().to_owned()
    } else {
        format!("{above}-{}", command.get_name())
    };
    let key = format!("help-{}", path.trim_start_matches("kingpost-"));
    let command = if words.has(&key) {
        command.about(words.text(&key))
    } else {
        command
    };
    let command = command.mut_args(|arg| explained(arg, &path, words));
    command.mut_subcommands(|sub| dressed(sub, &path, words))
}

fn explained(arg: Arg, path: &str, words: &Words) -> Arg {
    let name = arg.get_id().as_str().replace('_', "-");
    let own = format!("arg-{}-{name}", path.trim_start_matches("kingpost-"));
    let key = if words.has(&own) {
        own
    } else {
        format!("arg-{name}")
    };
    if words.has(&key) {
        arg.help(words.text(&key))
    } else {
        arg
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::commands::Cli;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_is_sound() {
        in_words(Cli::command(), &Words::english()).debug_assert();
    }

    #[test]
    fn every_command_and_argument_says_what_it_is_for() {
        let mut dumb = Vec::new();
        look(&in_words(Cli::command(), &Words::english()), &mut dumb);
        assert_eq!(dumb, Vec::<String>::new());
    }

    fn look(command: &Command, dumb: &mut Vec<String>) {
        if command.get_about().is_none() {
            dumb.push(command.get_name().to_owned());
        }
        let silent = command
            .get_arguments()
            .filter(|arg| arg.get_help().is_none());
        dumb.extend(silent.map(|arg| format!("{} {}", command.get_name(), arg.get_id())));
        command.get_subcommands().for_each(|sub| look(sub, dumb));
    }
}
