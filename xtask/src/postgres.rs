//! A PostgreSQL of our own for as long as the tests run: empty, on a free port, without a password.

use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail};

use crate::step::succeeds;
use crate::system::is_root;

const PATIENCE: Duration = Duration::from_mins(1);

/// Stops and vanishes when dropped, and also when this process ends without dropping it.
pub(crate) struct Cluster {
    keeper: Child,
    port: u16,
}

impl Cluster {
    /// Starts a cluster with the programs in this folder.
    pub(crate) fn start(programs: &Path) -> Result<Self> {
        let port = free_port()?;
        let keeper = ordinary_shell()
            .args(["-c", include_str!("postgres.sh"), "postgres.sh"])
            .arg(programs)
            .arg(port.to_string())
            .current_dir("/")
            .stdin(Stdio::piped())
            .stdout(Stdio::null())
            .spawn()
            .context("could not start PostgreSQL")?;
        let mut cluster = Self { keeper, port };
        cluster.wait_until_ready(programs)?;
        Ok(cluster)
    }

    pub(crate) fn url(&self) -> String {
        format!("postgres://postgres@127.0.0.1:{}/postgres", self.port)
    }

    fn wait_until_ready(&mut self, programs: &Path) -> Result<()> {
        let started = Instant::now();
        while !succeeds(Command::new(programs.join("pg_isready")).args(["-d", &self.url()])) {
            if self.keeper.try_wait()?.is_some() || started.elapsed() > PATIENCE {
                bail!(
                    "PostgreSQL did not start with the programs in {}",
                    programs.display()
                );
            }
            sleep(Duration::from_millis(50));
        }
        Ok(())
    }
}

impl Drop for Cluster {
    fn drop(&mut self) {
        drop(self.keeper.stdin.take());
        self.keeper.wait().ok();
    }
}

/// A shell under an ordinary user, because PostgreSQL refuses to run as root.
fn ordinary_shell() -> Command {
    if !is_root() {
        return Command::new("sh");
    }
    let mut shell = Command::new("setpriv");
    shell.args([
        "--reuid=postgres",
        "--regid=postgres",
        "--clear-groups",
        "sh",
    ]);
    // Root's folder for temporary files may be closed to others.
    shell.env_remove("TMPDIR");
    shell
}

fn free_port() -> Result<u16> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
    Ok(listener.local_addr()?.port())
}
