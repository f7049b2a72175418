//! The command line: the server, the check of its records, the demo, and the computation alone.

use std::io::IsTerminal as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use anyhow::Context as _;
use clap::{Parser, Subcommand};
use server::app::App;
use server::cli::quote::Show;
use server::clock::Clock;
use server::config::{Config, ServeOptions};
use server::db::Db;
use server::record::verify;
use server::{cli, demo, listen, mail};
use tokio::net::TcpListener;

/// The customer portal and back office of a boot- and shoe-repair shop.
///
/// Customers see their pair's stage, give their word on added scope and learn when to collect; the
/// shop keeps the same records with their prices.
#[derive(Parser)]
#[command(name = "lastword", version, about, long_about)]
struct Command {
    #[command(subcommand)]
    act: Act,
}

#[derive(Subcommand)]
enum Act {
    /// Run the portal and the back office
    ///
    /// The first start without an owner prints a link that sets the shop up, once. Put a reverse
    /// proxy with TLS in front, and name the address that customers open with --public-url.
    Serve(ServeOptions),
    /// Check every record: that no entry was changed, removed or moved since it was written
    Verify {
        /// The database to check: the path of a `SQLite` file, or postgres://…
        #[arg(
            long,
            env = "LASTWORD_DATABASE",
            default_value = "lastword-data/lastword.db",
            hide_env_values = true
        )]
        database: String,
    },
    /// Work out a bench sheet from a JSON file of measurements
    ///
    /// The file's form is shown by server/src/cli/bench-sheet.example.json.
    BenchSheet {
        /// The file
        file: PathBuf,
        /// Print JSON instead of tables
        #[arg(long)]
        json: bool,
    },
    /// Work out a plan of all open pairs from a JSON file: days, chances, offers and what-ifs
    ///
    /// The file's form is shown by server/src/cli/plan.example.json.
    Plan {
        /// The file
        file: PathBuf,
        /// Print JSON instead of tables
        #[arg(long)]
        json: bool,
    },
    /// Work out a quote from a JSON file of price rules and work
    ///
    /// The file's form is shown by server/src/cli/quote.example.json; supplies, and quantities from
    /// the pair's bench sheet, by quote-supplies.example.json.
    Quote {
        /// The file
        file: PathBuf,
        /// Print JSON instead of a table
        #[arg(long)]
        json: bool,
        /// Print what the work costs the shop and leaves as well
        #[arg(long, conflicts_with = "json")]
        cost: bool,
    },
    /// Fill the invented shop Juniper Row and run it
    Demo {
        #[command(flatten)]
        serve: ServeOptions,
        /// Begin anew: remove what the demo has stored before
        #[arg(long)]
        fresh: bool,
    },
}

#[tokio::main]
async fn main() -> ExitCode {
    tracing_subscriber::fmt()
        .with_env_filter(
            tracing_subscriber::EnvFilter::try_from_env("LASTWORD_LOG")
                .unwrap_or_else(|_| "warn,server=info".into()),
        )
        .with_writer(std::io::stderr)
        // Colours are for eyes; a log file gets none.
        .with_ansi(std::io::stderr().is_terminal())
        .init();
    match run(Command::parse().act).await {
        Ok(code) => code,
        Err(error) => {
            say(&format!("lastword: {error:#}"));
            ExitCode::FAILURE
        }
    }
}

async fn run(act: Act) -> anyhow::Result<ExitCode> {
    match act {
        Act::Serve(options) => {
            let (app, listener) = build(options).await?;
            if let Some(path) = server::setup_path(&app).await? {
                say(&format!(
                    "No owner yet. Set the shop up, once, at {}",
                    app.absolute(&path)
                ));
            }
            say(&format!("Lastword is up at {}", app.config.public_url));
            serve(app, listener).await?;
            Ok(ExitCode::SUCCESS)
        }
        Act::Verify { database } => {
            let db = Db::open(&database)
                .await
                .context("the database can't be opened")?;
            let verdict = verify::verify(&db).await?;
            db.close().await;
            for trouble in &verdict.troubles {
                say(trouble);
            }
            say(&format!(
                "{} tickets with {} entries checked, {} troubles",
                verdict.tickets,
                verdict.entries,
                verdict.troubles.len()
            ));
            let sound = verdict.troubles.is_empty();
            Ok(if sound {
                ExitCode::SUCCESS
            } else {
                ExitCode::FAILURE
            })
        }
        Act::BenchSheet { file, json } => {
            say(cli::bench_sheet::run(&file, json)?.trim_end());
            Ok(ExitCode::SUCCESS)
        }
        Act::Plan { file, json } => {
            say(cli::plan::run(&file, json)?.trim_end());
            Ok(ExitCode::SUCCESS)
        }
        Act::Quote { file, json, cost } => {
            let show = match (json, cost) {
                (true, _) => Show::Json,
                (false, true) => Show::Cost,
                (false, false) => Show::Table,
            };
            say(cli::quote::run(&file, show)?.trim_end());
            Ok(ExitCode::SUCCESS)
        }
        Act::Demo {
            serve: options,
            fresh,
        } => {
            if fresh {
                clear(&options.data)?;
            }
            let (config, listener) = bind(options).await?;
            demo::fill(&config, Clock::System.now()).await?;
            let app = App::build(config, Clock::System).await?;
            for line in demo::lines(&app).await? {
                say(&line);
            }
            serve(app, listener).await?;
            Ok(ExitCode::SUCCESS)
        }
    }
}

/// Removes what a demo has stored, and nothing else.
fn clear(data: &Path) -> anyhow::Result<()> {
    for name in [
        "lastword.db",
        "lastword.db-wal",
        "lastword.db-shm",
        "link-secret",
    ] {
        let path = data.join(name);
        if path.exists() {
            std::fs::remove_file(&path)
                .with_context(|| format!("{} can't be removed", path.display()))?;
        }
    }
    let photos = data.join("photos");
    if photos.exists() {
        std::fs::remove_dir_all(&photos)
            .with_context(|| format!("{} can't be removed", photos.display()))?;
    }
    Ok(())
}

async fn build(options: ServeOptions) -> anyhow::Result<(App, TcpListener)> {
    let (config, listener) = bind(options).await?;
    Ok((App::build(config, Clock::System).await?, listener))
}

/// Listens first: the address that is really listened on may stand in links.
async fn bind(options: ServeOptions) -> anyhow::Result<(Config, TcpListener)> {
    let listen = options.listen;
    let listener = TcpListener::bind(listen)
        .await
        .with_context(|| format!("{listen} can't be listened on; choose another with --listen"))?;
    Ok((options.check(listener.local_addr()?)?, listener))
}

async fn serve(app: App, listener: TcpListener) -> anyhow::Result<()> {
    let worker = tokio::spawn(mail::worker::run(app.clone()));
    listen::serve(listener, app.router(), stopped()).await?;
    worker.abort();
    app.db.close().await;
    Ok(())
}

/// Done when the program is asked to stop.
async fn stopped() {
    let interrupted = tokio::signal::ctrl_c();
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        if let Ok(mut terminated) = signal(SignalKind::terminate()) {
            tokio::select! {
                _ = interrupted => {}
                _ = terminated.recv() => {}
            }
            return;
        }
    }
    let _ = interrupted.await;
}

#[expect(
    clippy::print_stdout,
    reason = "a command line speaks to whoever started it"
)]
fn say(line: &str) {
    println!("{line}");
}
