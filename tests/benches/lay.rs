//! Strip packing on the instances of the EURO working group on cutting and packing (ESICUP).
//!
//! The instances are not part of the project: point `FUSTIAN_LAY_DATA` at a directory that holds
//! `shirts.json`, `trousers.json`, `dagli.json` and `blaz1.json` (OR-Datasets form), then
//! `cargo bench --bench lay -- [seconds=10] [threads=2] [seed=0] [only=NAME]`.
//! Every plan is checked before its usage is printed.

use fustian::lay::{Allowance, Effort, Item, Request, Turn, search, verify};
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
    if only.as_deref() == Some("sheets") {
        return sheets();
    }
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
            "{name:9} {:6.2} % of {best:.2} known, {:5.1} s, {:.2} M evaluations, {} pieces, faults: {faults:?}",
            plan.usage * 100.0,
            start.elapsed().as_secs_f64(),
            plan.evaluations as f64 / 1e6,
            plan.placements.len(),
        );
    }
}

/// Sheets of 2400 by 1500 cut straight through into rectangles and laid again at each effort.
fn sheets() {
    for (seed, parts) in
        [(1, 9), (2, 12), (3, 16), (4, 16), (5, 20), (6, 25), (7, 20), (8, 25), (9, 30), (10, 40)]
    {
        for effort in [Effort::Quick, Effort::Normal] {
            let request = Request {
                items: cut_sheet(2400.0, WIDTH, parts, seed),
                width: WIDTH,
                minimum_space: 0.0,
                allowance: Allowance::Work(effort),
                seed: 1,
                threads: 1,
            };
            let start = Instant::now();
            let plan = search(&request, &mut |_| {}).expect("the sheet can be laid");
            let took = start.elapsed().as_secs_f64();
            println!("sheet in {parts:2} {effort:?}: {:.2} % used, {took:.2} s", plan.usage * 100.0);
        }
    }
}

/// Cuts a sheet straight through, always the largest part left, by a random share.
fn cut_sheet(length: f64, width: f64, parts: usize, seed: u64) -> Vec<Item> {
    let mut state = seed;
    let mut random = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as f64 / f64::from(1u32 << 31)
    };
    let mut sheets = vec![(length, width)];
    while sheets.len() < parts {
        let area = |i: &usize| sheets[*i].0 * sheets[*i].1;
        let largest = (0..sheets.len()).max_by(|a, b| area(a).total_cmp(&area(b))).expect("a sheet");
        let (l, w) = sheets.swap_remove(largest);
        let at = ((0.3 + 0.4 * random()) * l.max(w)).round();
        sheets.extend(if l > w { [(at, w), (l - at, w)] } else { [(l, at), (l, w - at)] });
    }
    let corners = |(l, w): (f64, f64)| vec![(0.0, 0.0), (l, 0.0), (l, w), (0.0, w)];
    let item = |&sheet: &(f64, f64)| Item {
        id: "cut".to_owned(),
        outline: corners(sheet),
        quantity: 1,
        turns: vec![Turn::free(0.0)],
        repeat: None,
    };
    sheets.iter().map(item).collect()
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
