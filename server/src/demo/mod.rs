//! Fills the invented shop of Juniper Row.

use crate::app::App;

/// Fills the shop if it is empty, and gives the lines to print.
pub async fn fill(app: &App) -> anyhow::Result<Vec<String>> {
    let _ = app;
    Ok(Vec::new())
}
