//! From arguments to what is printed.

use crate::{
    Exit,
    commands::Cli,
    help,
    kit::{Kit, usual_data_folder},
    said::Said,
    trouble::Trouble,
};
use clap::{
    CommandFactory, FromArgMatches,
    error::{ContextKind, ContextValue},
};
use std::{ffi::OsString, sync::Arc};
use words::{Told, Words};
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
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    // Asked of the words themselves: what is not understood as a whole has no fields yet.
    let json = arguments
        .iter()
        .take_while(|argument| *argument != "--")
        .any(|argument| argument == "--json");
    let read = command.try_get_matches_from(arguments);
    let cli = match read.and_then(|matches| Cli::from_arg_matches(&matches)) {
        Ok(cli) => cli,
        Err(stumbled) => return not_understood(&without_false_tips(stumbled), &words, json),
    };
    let kit = Kit {
        words,
        world,
        data: cli.data.clone().unwrap_or_else(usual_data_folder),
        json: cli.json,
    };
    printed(&kit, cli.run(&kit))
}

/// No argument here may begin with a dash, so that the tip to write an unknown one as a value leads nowhere.
fn without_false_tips(mut stumbled: clap::Error) -> clap::Error {
    if let Some(ContextValue::StyledStrs(mut tips)) = stumbled.remove(ContextKind::Suggested) {
        tips.retain(|tip| !tip.to_string().contains("as a value"));
        if !tips.is_empty() {
            stumbled.insert(ContextKind::Suggested, ContextValue::StyledStrs(tips));
        }
    }
    stumbled
}

/// Help and version are asked for and end well; anything else is a slip in the command line.
fn not_understood(stumbled: &clap::Error, words: &Words, json: bool) -> Printed {
    let text = stumbled.render().to_string();
    if stumbled.use_stderr() {
        let err = if json {
            let what = text.strip_prefix("error: ").unwrap_or(&text).trim_end();
            slip(words, what).printed(words, true)
        } else {
            text
        };
        Printed {
            code: Exit::Usage.code(),
            out: String::new(),
            err,
        }
    } else {
        Printed {
            code: Exit::Done.code(),
            out: text,
            err: String::new(),
        }
    }
}

/// A slip in the command line as a trouble.
pub(crate) fn slip(words: &Words, what: &str) -> Trouble {
    Trouble::Yours {
        code: "usage".to_owned(),
        told: Told {
            what: format!("{}\n{what}", words.text("usage")),
            next: words.text("usage.next"),
        },
        exit: Exit::Usage,
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
