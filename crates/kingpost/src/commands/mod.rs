//! The commands, one file a job, and the command line they make up.

mod address;
mod api;
mod arm;
mod book;
mod handover;
mod https;
mod journal;
mod papers;
mod people;
mod reckon;
mod serve;
mod shopping;
mod token;
mod upkeep;
mod walkround;
mod wall_chart;
mod yard;

use crate::{kit::Kit, said::Said, trouble::Trouble};
use clap::{Parser, Subcommand};
use std::path::PathBuf;

// The help lies in the messages, so that there are no doc comments here: they would become help.
#[allow(missing_docs)]
#[derive(Parser)]
#[command(name = "kingpost", version)]
pub(crate) struct Cli {
    #[arg(
        long,
        global = true,
        value_name = "DIR",
        env = "KINGPOST_DATA",
        hide_env_values = true
    )]
    pub(crate) data: Option<PathBuf>,
    #[arg(long, global = true)]
    pub(crate) json: bool,
    #[command(subcommand)]
    job: Option<Job>,
}

#[derive(Subcommand)]
enum Job {
    #[command(subcommand)]
    Book(book::Job),
    #[command(subcommand)]
    Walkround(walkround::Job),
    #[command(subcommand)]
    Handover(handover::Job),
    #[command(subcommand)]
    Upkeep(upkeep::Job),
    Reckon(reckon::Reckon),
    Arm(arm::Arm),
    Journal(journal::Journal),
    #[command(subcommand)]
    Papers(papers::Paper),
    #[command(subcommand)]
    People(people::Job),
    #[command(subcommand)]
    Yard(yard::Job),
    Https(https::Https),
    #[command(subcommand)]
    Token(token::Job),
    Api,
    Serve(serve::Serve),
}

impl Cli {
    /// Does what was asked; without a command, serves.
    pub(crate) fn run(self, kit: &Kit) -> Result<Said, Trouble> {
        match self.job {
            Some(Job::Book(job)) => book::run(kit, job),
            Some(Job::Walkround(job)) => walkround::run(kit, job),
            Some(Job::Handover(job)) => handover::run(kit, job),
            Some(Job::Upkeep(job)) => upkeep::run(kit, job),
            Some(Job::Reckon(reckon)) => reckon::run(kit, reckon),
            Some(Job::Arm(arm)) => arm::run(kit, &arm),
            Some(Job::Journal(journal)) => journal::run(kit, journal),
            Some(Job::Papers(paper)) => papers::run(kit, paper),
            Some(Job::People(job)) => people::run(kit, job),
            Some(Job::Yard(job)) => yard::run(kit, job),
            Some(Job::Https(asked)) => https::run(kit, &asked),
            Some(Job::Token(job)) => token::run(kit, job),
            Some(Job::Api) => Ok(api::run(kit)),
            Some(Job::Serve(serve)) => serve::run(kit, &serve),
            None => serve::run(kit, &serve::Serve::default()),
        }
    }
}
