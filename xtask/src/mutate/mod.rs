//! Breaks each formula on purpose, one small change at a time, and counts what the cases alone notice.
//!
//! A wrong sign, area, factor or unit must not get past `cases/`. Each mutant is built in a copy of the tree and
//! only the cases are run on it.

mod bench;
mod mutants;
mod score;

use std::collections::{BTreeMap, VecDeque};
use std::fs::{self, File};
use std::sync::Mutex;

use crate::leaves::{Formula, formulas, parts};
use crate::tree::Tree;
use bench::{Bench, Outcome};
use mutants::{Mutant, mutants};
use score::Score;

/// Runs the mutation; true where the cases notice enough in every formula.
///
/// Options: `--only JOB.NAME` for one formula or one part of formulas (several names with commas between), `--parts` for
/// the parts formulas are made of as well, `--list` to print the mutants and run nothing.
pub(crate) fn run(tree: &Tree, options: &[&str]) -> Result<bool, String> {
    let all = || [formulas(tree), parts(tree)].concat();
    let chosen = match options {
        ["--only", names, ..] => {
            let wanted: Vec<&str> = names.split(',').collect();
            let is_wanted = |formula: &Formula| wanted.contains(&formula.name().as_str());
            all().into_iter().filter(is_wanted).collect()
        }
        _ if options.contains(&"--parts") => all(),
        _ => formulas(tree),
    };
    let work: VecDeque<Job> = chosen
        .iter()
        .flat_map(|formula| jobs(tree, formula))
        .collect();
    if work.is_empty() {
        return Err("no formula to break: nothing was checked".to_owned());
    }
    if options.contains(&"--list") {
        for job in &work {
            println!(
                "{}:{}: {}",
                job.formula.path, job.mutant.line, job.mutant.what
            );
        }
        return Ok(true);
    }
    let _only_one = claim_the_bench(tree)?;
    println!(
        "mutate: {} mutants of {} formulas",
        work.len(),
        chosen.len()
    );
    let outcomes = try_all(tree, work)?;
    Ok(report(&chosen, outcomes))
}

/// Two runs at once would break each other's copies; the second is told so. The lock ends with the file.
fn claim_the_bench(tree: &Tree) -> Result<File, String> {
    let place = bench::place(tree);
    let claim = fs::create_dir_all(&place).and_then(|()| File::create(place.join("claimed")));
    let claim = claim.map_err(|error| format!("cannot use {}: {error}", place.display()))?;
    match claim.try_lock() {
        Ok(()) => Ok(claim),
        Err(_) => Err(format!(
            "another mutation is running in {}",
            place.display()
        )),
    }
}

/// One mutant of one formula, with the file's whole text as it was.
struct Job {
    formula: Formula,
    text: String,
    mutant: Mutant,
}

fn jobs(tree: &Tree, formula: &Formula) -> Vec<Job> {
    let text = tree.text(&formula.path).unwrap_or_default();
    mutants(text)
        .into_iter()
        .map(|mutant| Job {
            formula: formula.clone(),
            text: text.to_owned(),
            mutant,
        })
        .collect()
}

/// Tries every mutant, one bench a core; the cases must pass on the unbroken tree first.
fn try_all(tree: &Tree, work: VecDeque<Job>) -> Result<Vec<(Job, Outcome)>, String> {
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let queue = Mutex::new(work);
    let workers = |number: usize| -> Result<Vec<(Job, Outcome)>, String> {
        let bench = Bench::set_up(tree, number)?;
        let mut done = Vec::new();
        while let Some(job) = next(&queue) {
            let broken = job.mutant.applied_to(&job.text);
            let outcome = bench.try_with(&job.formula.path, &broken, &job.text)?;
            done.push((job, outcome));
        }
        Ok(done)
    };
    let mut all = Vec::new();
    std::thread::scope(|scope| {
        let running: Vec<_> = (0..cores)
            .map(|number| scope.spawn(move || workers(number)))
            .collect();
        for worker in running {
            let done = worker
                .join()
                .map_err(|_| "a worker of the mutation stopped".to_owned())??;
            all.extend(done);
        }
        Ok::<(), String>(())
    })?;
    Ok(all)
}

fn next(queue: &Mutex<VecDeque<Job>>) -> Option<Job> {
    let mut queue = queue
        .lock()
        .unwrap_or_else(std::sync::PoisonError::into_inner);
    let job = queue.pop_front();
    if job.is_some() && queue.len().is_multiple_of(50) {
        println!("mutate: {} to go", queue.len());
    }
    job
}

fn report(chosen: &[Formula], outcomes: Vec<(Job, Outcome)>) -> bool {
    let mut scores: BTreeMap<String, Score> = chosen
        .iter()
        .map(|formula| (formula.name(), Score::default()))
        .collect();
    let mut survivors = Vec::new();
    for (job, outcome) in outcomes {
        if outcome == Outcome::Survived {
            let edge = if job.mutant.edge {
                " (an edge, not counted)"
            } else {
                ""
            };
            survivors.push((
                job.formula.path.clone(),
                job.mutant.line,
                format!("{}{edge}", job.mutant.what),
            ));
        }
        scores
            .entry(job.formula.name())
            .or_default()
            .add(&outcome, job.mutant.edge);
    }
    survivors.sort();
    println!("\nWhat the cases did not notice:");
    for (path, line, what) in &survivors {
        println!("{path}:{line}: {what}");
    }
    println!("\n{}", Score::heading());
    for (name, score) in &scores {
        println!("{}", score.row(name));
    }
    scores.values().all(Score::is_enough)
}
