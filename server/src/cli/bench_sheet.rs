//! `lastword bench-sheet`: works out a pair's bench sheet from a file of measurements.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use anyhow::{Context as _, Result};
use shared_types::bench::cautions::Step;
use shared_types::bench::heel::Heel;
use shared_types::bench::measure::Measured;
use shared_types::bench::sheet::BenchSheet;
use shared_types::bench::sheet::sections::Section;

/// Reads measurements from a JSON file; gives the sheet as a table, or as JSON.
pub fn run(file: &Path, json: bool) -> Result<String> {
    let name = file.display();
    let text = fs::read_to_string(file).with_context(|| format!("could not read {name}"))?;
    let measured: Measured =
        serde_json::from_str(&text).with_context(|| format!("could not understand {name}"))?;
    let sheet = BenchSheet::work_out(&measured)?;
    if json {
        return Ok(serde_json::to_string_pretty(&sheet)? + "\n");
    }
    let mut table = String::new();
    write(&mut table, &sheet).context("could not write the table")?;
    Ok(table)
}

fn write(table: &mut String, sheet: &BenchSheet) -> std::fmt::Result {
    if !sheet.pair.is_empty() {
        writeln!(table, "{}", sheet.pair)?;
    }
    let stamped = sheet.stamped.as_deref().unwrap_or("no size stamped");
    writeln!(table, "{stamped}; elsewhere, as a guide only:")?;
    for row in &sheet.sizes {
        writeln!(table, "  {:<12} {}", row.system.label(), row.nearest)?;
    }
    if !sheet.thicknesses.is_empty() {
        writeln!(table, "\nThicknesses")?;
    }
    for row in &sheet.thicknesses {
        writeln!(
            table,
            "  {:<32} {:>6.2} mm {:>6.2} iron {:>6.2} oz",
            row.field.label(),
            row.millimetres.0,
            row.irons.0,
            row.ounces.0
        )?;
    }
    for section in sheet.sections() {
        write_section(table, &section)?;
    }
    write_heel_words(table, &sheet.heel)?;
    for nails in &sheet.nails {
        let joint = nails.joint.label();
        match nails.take {
            Some(length) => writeln!(table, "\nNails, {joint}: {length}")?,
            None => writeln!(
                table,
                "\nNails, {joint}: none at hand holds and stays inside"
            )?,
        }
    }
    let doubts = sheet.doubts.iter().map(|doubt| doubt.words.clone());
    write_list(table, "Look again at", doubts)?;
    write_cautions(table, sheet)?;
    writeln!(
        table,
        "\n±: nineteen times of twenty the truth is no further off. --json shows every figure's \
         inputs and source."
    )
}

fn write_section(table: &mut String, section: &Section<'_>) -> std::fmt::Result {
    writeln!(table, "\n{}", section.title)?;
    let amounts: Vec<_> = section
        .figures
        .iter()
        .map(|figure| (figure, figure.amount()))
        .collect();
    let width = |length: Option<usize>| length.unwrap_or_default();
    let labels = width(amounts.iter().map(|(f, _)| f.label.chars().count()).max());
    let numbers = width(amounts.iter().map(|(_, a)| a.chars().count()).max());
    for (figure, amount) in &amounts {
        let (label, formula) = (figure.label, figure.formula);
        writeln!(table, "  {label:<labels$}  {amount:>numbers$}  = {formula}")?;
    }
    Ok(())
}

fn write_heel_words(table: &mut String, heel: &Heel) -> std::fmt::Result {
    match heel {
        Heel::Worked(heel) => {
            let words = heel.misfits.iter().map(ToString::to_string);
            write_list(table, "Does not fit, or needs a word", words)
        }
        Heel::Missing(fields) => {
            let labels = fields.iter().map(|field| field.label().to_owned());
            write_list(table, "The heel also needs", labels)
        }
        Heel::Prescribed => writeln!(
            table,
            "\nHeel: built to the clinician's written measurements; no height is worked out here."
        ),
    }
}

fn write_list(
    table: &mut String,
    title: &str,
    lines: impl Iterator<Item = String>,
) -> std::fmt::Result {
    let lines: Vec<_> = lines.collect();
    if lines.is_empty() {
        return Ok(());
    }
    writeln!(table, "\n{title}")?;
    for line in lines {
        writeln!(table, "  - {line}")?;
    }
    Ok(())
}

fn write_cautions(table: &mut String, sheet: &BenchSheet) -> std::fmt::Result {
    writeln!(table, "\nCautions")?;
    let mut step_before: Option<Step> = None;
    for caution in &sheet.cautions {
        if step_before != Some(caution.step) {
            writeln!(table, "  {}", caution.step.label())?;
        }
        writeln!(table, "  - {} ({})", caution.words, caution.more)?;
        step_before = Some(caution.step);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn example(json: bool) -> String {
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/cli/bench-sheet.example.json");
        run(&file, json).unwrap()
    }

    /// By hand: the pitch was 5 + 24 + 6 − 5 = 30 mm; 30 + 9 − 5 − 12 = 22 mm.
    #[test]
    fn the_thick_sole_s_heel_base_is_shortened_to_keep_the_pitch() {
        let table = example(false);
        let base = table
            .lines()
            .find(|line| line.trim_start().starts_with("New heel base"))
            .unwrap();
        assert!(base.contains(" 22 ± "), "{base}");
        assert!(!table.contains("Look again"), "{table}");
        assert!(table.contains("with the new parts on the old heel base"));
        assert!(table.contains("Leather dust causes cancer"));
    }

    #[test]
    fn json_holds_every_figure_with_its_inputs_and_source() {
        let sheet: serde_json::Value = serde_json::from_str(&example(true)).unwrap();
        let base = &sheet["heel"]["figures"]["base"];
        assert_eq!(base["value"], 22.0);
        assert_eq!(base["inputs"].as_array().unwrap().len(), 5);
        assert_eq!(base["source"]["kind"], "definition");
    }

    #[test]
    fn what_is_wrong_with_a_file_is_said() {
        let folder = tempfile::tempdir().unwrap();
        let refused = |text: &str| {
            let file = folder.path().join("pair.json");
            fs::write(&file, text).unwrap();
            format!("{:#}", run(&file, false).unwrap_err())
        };
        assert!(refused("{}").contains("Give the size"));
        let problem = refused(r#"{"lengths": {"insole-length": "long"}}"#);
        assert!(problem.contains("Write a length such as"), "{problem}");
        let problem = refused(r#"{"lengths": {"insole-lenght": 285}}"#);
        assert!(problem.contains("insole-lenght"), "{problem}");
    }
}
