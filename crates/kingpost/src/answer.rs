//! From arguments to what is printed.

use crate::{
    Exit,
    commands::Cli,
    help,
    kit::{Kit, usual_data_folder},
    said::Said,
    trouble::Trouble,
};
use clap::{CommandFactory, FromArgMatches};
use std::{ffi::OsString, sync::Arc};
use words::Words;
use yard::world::World;

/// What the program prints, and how it ends.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The exit code: see [`Exit`].
    pub code: u8,
    /// For standard output.
    pub out: String,
    /// For standard error.
    pub err: String,
}

/// Does what the arguments say, the program's own name first. Only `serve` prints anything itself, because it goes on.
pub fn answer(arguments: impl IntoIterator<Item = OsString>, world: Arc<dyn World>) -> Printed {
    let words = Arc::new(Words::english());
    let command = help::in_words(Cli::command(), &words);
    let read = command.try_get_matches_from(arguments);
    let cli = match read.and_then(|matches| Cli::from_arg_matches(&matches)) {
        Ok(cli) => cli,
        Err(stumbled) => return not_understood(&stumbled),
    };
    let kit = Kit {
        words,
        world,
        data: cli.data.clone().unwrap_or_else(usual_data_folder),
        json: cli.json,
    };
    printed(&kit, cli.run(&kit))
}

/// Help and version are asked for and end well; anything else is a slip in the command line.
fn not_understood(stumbled: &clap::Error) -> Printed {
    let text = stumbled.render().to_string();
    if stumbled.use_stderr() {
        Printed {
            code: Exit::Usage.code(),
            out: String::new(),
            err: text,
        }
    } else {
        Printed {
            code: Exit::Done.code(),
            out: text,
            err: String::new(),
        }
    }
}

fn printed(kit: &Kit, done: Result<Said, Trouble>) -> Printed {
    match done {
        Ok(said) => Printed {
            code: said.exit.code(),
            out: said.printed(kit.json),
            err: String::new(),
        },
        Err(trouble) => Printed {
            code: trouble.exit().code(),
            out: String::new(),
            err: trouble.printed(&kit.words, kit.json),
        },
    }
}
