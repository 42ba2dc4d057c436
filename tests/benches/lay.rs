//! Strip packing on the instances of the EURO working group on cutting and packing (ESICUP).
//!
//! The instances are not part of the project: point `FUSTIAN_LAY_DATA` at a directory that holds
//! `shirts.json`, `trousers.json`, `dagli.json` and `blaz1.json` (OR-Datasets form), then
//! `cargo bench --bench lay -- [seconds=10] [threads=2] [seed=0] [only=NAME]`.
//! Every plan is checked before its usage is printed.

use fustian::lay::{Allowance, Item, Request, Turn, search, verify};
use std::time::Instant;

/// Instances with the best usage known (the records published with arXiv 2509.13329), percent.
const BEST_KNOWN: [(&str, f64); 4] =
    [("shirts", 90.92), ("trousers", 92.62), ("dagli", 90.17), ("blaz1", 86.22)];
/// The instances are in units of their own; the cloth is scaled to this width in millimetres.
const WIDTH: f64 = 1500.0;

fn main() {
    let argument = |name: &str, default: f64| {
        let mut values =
            std::env::args().filter_map(|a| a.strip_prefix(name)?.strip_prefix('=')?.parse().ok());
        values.next().unwrap_or(default)
    };
    let (seconds, threads, seed) =
        (argument("seconds", 10.0), argument("threads", 2.0), argument("seed", 0.0));
    let only: Option<String> = std::env::args().find_map(|a| Some(a.strip_prefix("only=")?.to_owned()));
    let Ok(directory) = std::env::var("FUSTIAN_LAY_DATA") else {
        println!("FUSTIAN_LAY_DATA is not set: nothing to measure");
        return;
    };
    for (name, best) in BEST_KNOWN {
        if only.as_ref().is_some_and(|o| o != name) {
            continue;
        }
        let text = match std::fs::read_to_string(format!("{directory}/{name}.json")) {
            Ok(text) => text,
            Err(why) => {
                println!("{name}: {why}");
                continue;
            }
        };
        let data: serde_json::Value = serde_json::from_str(&text).expect("the instance is JSON");
        let start = Instant::now();
        let spent = move || start.elapsed().as_secs_f64() / seconds;
        let request = Request {
            items: items(&data),
            width: WIDTH,
            minimum_space: 0.0,
            allowance: Allowance::Until(&spent),
            seed: seed as u64,
            threads: threads as usize,
        };
        let loud = std::env::args().any(|a| a == "loud");
        let plan = search(&request, &mut |p| {
            if loud {
                println!("  {:7.2} s {:.3} %", p.spent * seconds, p.usage * 100.0);
            }
        })
        .expect("the instance can be laid");
        let faults = verify(&request, &plan);
        println!(
            "{name:9} {:6.2} % of {best:.2} known, {:5.1} s, {:.2} M looks, {} pieces, faults: {faults:?}",
            plan.usage * 100.0,
            start.elapsed().as_secs_f64(),
            plan.looks as f64 / 1e6,
            plan.placements.len(),
        );
    }
}

fn items(data: &serde_json::Value) -> Vec<Item> {
    let number = |v: &serde_json::Value| v.as_f64().expect("a number");
    let scale = WIDTH / number(&data["strip_height"]);
    let list = |v: &serde_json::Value| v.as_array().cloned().expect("a list");
    list(&data["items"])
        .iter()
        .map(|item| Item {
            id: item["id"].to_string(),
            outline: list(&item["shape"]["data"])
                .iter()
                .map(|p| (number(&p[0]) * scale, number(&p[1]) * scale))
                .collect(),
            quantity: number(&item["demand"]) as usize,
            turns: list(&item["allowed_orientations"]).iter().map(|v| Turn::free(number(v))).collect(),
            repeat: None,
        })
        .collect()
}
