//! `cargo xtask tidy`: the rules of the source tree which no compiler knows.

use std::ffi::OsStr;
use std::fs;
use std::path::Path;
use std::process::ExitCode;

use anyhow::{Context, Result, ensure};

use crate::step::root;

/// The top-level folders with sources of our own.
const FOLDERS: &[&str] = &[
    "frontend",
    "server",
    "shared-types",
    "style",
    "tests",
    "xtask",
];

/// What the pure domain may build on: values, and nothing that reaches outside.
const SHARED_TYPES_DEPENDENCIES: &[&str] = &[
    "data-encoding",
    "iso_currency",
    "libm",
    "serde",
    "serde_json",
    "serde_json_canonicalizer",
    "sha2",
    "thiserror",
    "time",
    "tz-rs",
    "tzdb",
    "uuid",
];

/// A rule looks at some files for the first line that breaks it, and says what to do there.
struct Rule {
    folder: &'static str,
    extension: &'static str,
    first_breach: fn(&Source) -> Option<usize>,
    advice: &'static str,
}

const RULES: &[Rule] = &[
    Rule {
        folder: "",
        extension: ".rs",
        first_breach: no_opening,
        advice: "open the file with a `//!` sentence that says what it is for",
    },
    Rule {
        folder: "shared-types/",
        extension: "Cargo.toml",
        first_breach: unlisted_dependency,
        advice: "the domain is pure: do this elsewhere, or list the crate in xtask/src/tidy.rs",
    },
    Rule {
        folder: "shared-types/src/",
        extension: ".rs",
        first_breach: impurity,
        advice: "the domain reads no clock, file or network and never waits: take a parameter",
    },
    Rule {
        folder: "frontend/",
        extension: "",
        first_breach: reaching_out,
        advice: "the frontend turns props into HTML: load and store in a handler of the server",
    },
    Rule {
        folder: "",
        extension: ".rs",
        first_breach: scattered_url,
        advice: "write URLs once, in shared-types/src/paths.rs, and call its builder",
    },
    Rule {
        folder: "server/src/",
        extension: ".rs",
        first_breach: open_queries,
        advice: "keep `mod queries` private and offer a function in the slice's mod.rs instead",
    },
    Rule {
        folder: "style/components/",
        extension: ".css",
        first_breach: unlayered,
        advice: "wrap the whole file in `@layer components { … }`, so that pages can override it",
    },
    Rule {
        folder: "style/",
        extension: ".css",
        first_breach: importance,
        advice: "let the layers decide which style wins instead of `!important`",
    },
    Rule {
        folder: "frontend/src/",
        extension: ".rs",
        first_breach: inline_style,
        advice: "use a class: the Content-Security-Policy refuses inline styles",
    },
    Rule {
        folder: "frontend/src/",
        extension: ".rs",
        first_breach: bare_textarea,
        advice: "use elements/field.rs: what stands inside a bare textarea is not escaped",
    },
];

pub(crate) fn run() -> Result<ExitCode> {
    check()?;
    Ok(ExitCode::SUCCESS)
}

/// Checks every source file against every rule, and tells of all that is broken.
pub(crate) fn check() -> Result<()> {
    let mut sources = Vec::new();
    for folder in FOLDERS {
        collect(&root().join(folder), &mut sources)?;
    }
    let breaches: Vec<_> = sources.iter().flat_map(breaches).collect();
    ensure!(
        breaches.is_empty(),
        "the tree is not tidy:\n{}",
        breaches.join("\n")
    );
    Ok(())
}

fn breaches(source: &Source) -> impl Iterator<Item = String> {
    let concerned = |rule: &&Rule| {
        source.path.starts_with(rule.folder) && source.path.ends_with(rule.extension)
    };
    RULES.iter().filter(concerned).filter_map(|rule| {
        let line = (rule.first_breach)(source)?;
        Some(format!("{}:{}: {}", source.path, line + 1, rule.advice))
    })
}

/// A file, with its path from the root of the workspace.
struct Source {
    path: String,
    text: String,
}

impl Source {
    /// The first line that asks for attention; comments and test modules may say anything.
    fn first_line(&self, asks: impl Fn(&str) -> bool) -> Option<usize> {
        if self.path.ends_with("/tests.rs") {
            return None;
        }
        self.text
            .lines()
            .map(str::trim)
            .take_while(|line| {
                !line.starts_with("#[cfg(test)]") && !line.starts_with("#[cfg(all(test")
            })
            .position(|line| !line.starts_with("//") && asks(line))
    }

    fn first_line_with(&self, words: &[&str]) -> Option<usize> {
        self.first_line(|line| words.iter().any(|word| line.contains(word)))
    }
}

/// Gathers the sources in a folder, and in the folders within it.
fn collect(folder: &Path, sources: &mut Vec<Source>) -> Result<()> {
    let unreadable = |path: &Path| format!("could not read {}", path.display());
    for entry in fs::read_dir(folder).with_context(|| unreadable(folder))? {
        let path = entry?.path();
        if path.is_dir() {
            collect(&path, sources)?;
        } else if has_rules(&path) {
            let text = fs::read_to_string(&path).with_context(|| unreadable(&path))?;
            let path = path.strip_prefix(root())?.display().to_string();
            sources.push(Source { path, text });
        }
    }
    Ok(())
}

fn has_rules(path: &Path) -> bool {
    let extension = path.extension().and_then(OsStr::to_str);
    extension.is_some_and(|extension| ["rs", "css", "toml"].contains(&extension))
}

fn no_opening(source: &Source) -> Option<usize> {
    (!source.text.starts_with("//! ")).then_some(0)
}

fn unlisted_dependency(source: &Source) -> Option<usize> {
    let lines = source.text.lines().map(str::trim).enumerate();
    lines
        .skip_while(|(_, line)| *line != "[dependencies]")
        .skip(1)
        .take_while(|(_, line)| !line.starts_with('['))
        .filter(|(_, line)| !line.is_empty() && !line.starts_with('#'))
        .find(|(_, line)| {
            let name = line.split(['.', ' ', '=']).next();
            name.is_none_or(|name| !SHARED_TYPES_DEPENDENCIES.contains(&name))
        })
        .map(|(number, _)| number)
}

fn impurity(source: &Source) -> Option<usize> {
    let clocks = ["now_utc(", "now_local(", "SystemTime::now"];
    let outside = ["std::fs", "std::net", "async fn"];
    source.first_line_with(&[&clocks[..], &outside].concat())
}

fn reaching_out(source: &Source) -> Option<usize> {
    source.first_line_with(&["sqlx", "axum", "tokio", "#[server"])
}

fn scattered_url(source: &Source) -> Option<usize> {
    let may_write_urls = ["shared-types/src/paths.rs", "tests/", "xtask/"];
    let applies = !may_write_urls
        .iter()
        .any(|place| source.path.starts_with(place));
    source
        .first_line_with(&["\"/t/", "\"/shop"])
        .filter(|_| applies)
}

fn open_queries(source: &Source) -> Option<usize> {
    source.first_line(|line| line.starts_with("pub") && line.contains("mod queries"))
}

fn unlayered(source: &Source) -> Option<usize> {
    let mut style = source.text.trim();
    while let Some((_, after)) = style
        .strip_prefix("/*")
        .and_then(|text| text.split_once("*/"))
    {
        style = after.trim_start();
    }
    (!style.starts_with("@layer components") || !style.ends_with('}')).then_some(0)
}

fn importance(source: &Source) -> Option<usize> {
    source.first_line_with(&["!important"])
}

fn inline_style(source: &Source) -> Option<usize> {
    let is_style = |word: &str| {
        word.starts_with("style=") || (word.starts_with("style:") && word.contains('='))
    };
    source.first_line(|line| line.split_whitespace().any(is_style))
}

fn bare_textarea(source: &Source) -> Option<usize> {
    let is_home = source.path.ends_with("elements/field.rs");
    source.first_line_with(&["<textarea"]).filter(|_| !is_home)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tree_is_tidy() {
        if let Err(breaches) = check() {
            panic!("{breaches}");
        }
    }

    /// Each rule would notice its breach, on the line where it stands, and only that rule would.
    #[test]
    fn every_rule_notices_its_breach() {
        let broken = [
            ("server/src/lib.rs", "// Not a doc comment.", 1),
            (
                "shared-types/Cargo.toml",
                "[package]\nname = \"x\"\n\n[dependencies]\nserde.workspace = true\nreqwest = \"1\"",
                6,
            ),
            (
                "shared-types/src/stage.rs",
                "//! Stages.\n\nlet now = OffsetDateTime::now_utc();",
                3,
            ),
            (
                "frontend/Cargo.toml",
                "[dependencies]\naxum.workspace = true",
                2,
            ),
            (
                "server/src/page.rs",
                "//! Pages.\nformat!(\"/shop/{id}\")",
                2,
            ),
            (
                "server/src/staff/mod.rs",
                "//! Staff.\npub(crate) mod queries;",
                2,
            ),
            (
                "style/components/button.css",
                "/* A button. */\n.button {}",
                1,
            ),
            ("style/print.css", "a { color: black !important }", 1),
            (
                "frontend/src/document.rs",
                "//! The frame.\n<p style=\"color: red\">",
                2,
            ),
            (
                "frontend/src/portal/ticket.rs",
                "//! A ticket.\n<textarea>{typed}</textarea>",
                2,
            ),
        ];
        for ((path, text, line), rule) in broken.into_iter().zip(RULES) {
            let source = Source {
                path: path.to_owned(),
                text: text.to_owned(),
            };
            let expected = format!("{path}:{line}: {}", rule.advice);
            assert_eq!(breaches(&source).collect::<Vec<_>>(), [expected]);
        }
    }

    #[test]
    fn comments_and_test_modules_may_say_anything() {
        let text = "//! No axum here.\n// Nor tokio.\n#[cfg(test)]\nmod tests { use tokio::test; }";
        let source = Source {
            path: "frontend/src/lib.rs".to_owned(),
            text: text.to_owned(),
        };
        assert_eq!(breaches(&source).count(), 0);
    }
}
