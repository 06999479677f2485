//! Which gas may stand in a system under test, and why others may not.

use dewline_lang::library::Failure;

use crate::refrigerant::Gas;

/// The gas of this name for a pressure test or a purge, or why it must not be used.
pub fn test_gas(name: &str) -> Result<Gas, Failure> {
    let why = match name {
        "nitrogen" => return Ok(Gas::Nitrogen),
        "helium" => return Ok(Gas::Helium),
        "air" | "oxygen" => "with oil under pressure it can explode, and it brings moisture and scale into the pipe",
        "carbon_dioxide" => {
            "it condenses at 39.7 bar at 5 °C, below the usual test pressures, and makes acid with water"
        }
        _ => "only dry nitrogen is",
    };
    Err(Failure::of("gas", format!("{name} is not a gas for pressure tests or purges: {why}"))
        .with_mend("use dry nitrogen: `nitrogen`"))
}

#[cfg(test)]
mod tests {
    use super::test_gas;

    #[test]
    fn only_gases_that_harm_nobody_are_taken() {
        assert!(test_gas("nitrogen").is_ok());
        for name in ["air", "oxygen", "carbon_dioxide", "argon"] {
            assert!(test_gas(name).is_err_and(|failure| failure.message.starts_with(name)), "{name}");
        }
    }
}
