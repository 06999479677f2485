//! A short run of every target: its seeds, mutations of these, and bytes of no meaning; always the same ones.
#![allow(clippy::unwrap_used)]

use dewline_fuzz::{TARGETS, seeds};
use dewline_lang::limits::STACK_BYTES;
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// Mutations of each target's seeds, and heaps of random bytes.
const TRIES: usize = 300;

#[test]
fn every_door_bears_what_comes() {
    let doors: Vec<_> = TARGETS
        .iter()
        .map(|target| {
            let work = move || {
                let seeds = seeds(target.name);
                assert!(!seeds.is_empty(), "{} has no seeds", target.name);
                seeds.iter().step_by(1 + seeds.len() / TRIES).for_each(|seed| (target.enter)(seed));
                let mut random = ChaCha8Rng::seed_from_u64(26);
                for _ in 0..TRIES {
                    let other = &seeds[below(&mut random, seeds.len())];
                    let mut bytes = seeds[below(&mut random, seeds.len())].clone();
                    mutate(&mut bytes, other, &mut random);
                    (target.enter)(&bytes);
                    let length = below(&mut random, 600);
                    let heap: Vec<u8> = (0..length).map(|_| below(&mut random, 256) as u8).collect();
                    (target.enter)(&heap);
                }
            };
            (target.name, std::thread::Builder::new().stack_size(STACK_BYTES).spawn(work).unwrap())
        })
        .collect();
    for (name, door) in doors {
        assert!(door.join().is_ok(), "{name} fell");
    }
}

fn below(random: &mut ChaCha8Rng, most: usize) -> usize {
    (random.next_u64() % most.max(1) as u64) as usize
}

/// A few changes, as a slip of the pen or a bad disk makes them.
fn mutate(bytes: &mut Vec<u8>, other: &[u8], random: &mut ChaCha8Rng) {
    for _ in 0..=below(random, 4) {
        if bytes.is_empty() {
            return;
        }
        let at = below(random, bytes.len());
        match below(random, 6) {
            0 => bytes[at] ^= 1 << below(random, 8),
            1 => drop(bytes.remove(at)),
            2 => bytes.insert(at, b"\"|(){}?=\n.-#0 \xc2\xb0"[below(random, 16)]),
            3 => bytes.truncate(at),
            4 => {
                let from = below(random, other.len());
                let piece = other[from..(from + below(random, 80)).min(other.len())].to_vec();
                bytes.splice(at..at, piece);
            }
            _ => {
                let end = (at + below(random, 40)).min(bytes.len());
                let piece = bytes[at..end].to_vec();
                bytes.splice(at..at, piece);
            }
        }
    }
}
