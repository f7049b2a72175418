//! Puts the stylesheet together in the order of `style/order.txt`, and lists its fonts.

use std::fmt::Write as _;
use std::path::Path;
use std::{env, fs, io};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let root = env::var("CARGO_MANIFEST_DIR")?;
    let style = Path::new(&root).join("../style");
    // Each instruction on a line of its own, for cargo to read from the standard output.
    let mut instructions = String::new();
    writeln!(instructions, "cargo::rerun-if-changed={}", style.display())?;
    writeln!(instructions, "cargo::rerun-if-changed=../migrations")?;
    let mut sheet = String::new();
    for name in fs::read_to_string(style.join("order.txt"))?.lines() {
        let name = name.trim();
        if !name.is_empty() {
            sheet.push_str(&fs::read_to_string(style.join(name))?);
            sheet.push('\n');
        }
    }
    let mut fonts: Vec<_> = fs::read_dir(style.join("fonts"))?
        .filter_map(Result::ok)
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|kind| kind == "woff2"))
        .collect();
    fonts.sort();
    let mut source =
        format!("const STYLE: &str = {sheet:?};\nconst FONTS: &[(&str, &[u8])] = &[\n");
    for font in fonts {
        let name = font
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        let path = fs::canonicalize(&font)?.display().to_string();
        writeln!(source, "    ({name:?}, include_bytes!({path:?})),")?;
    }
    source.push_str("];\n");
    fs::write(Path::new(&env::var("OUT_DIR")?).join("style.rs"), source)?;
    io::Write::write_all(&mut io::stdout(), instructions.as_bytes())?;
    Ok(())
}
