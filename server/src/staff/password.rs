//! Passwords: argon2id on a blocking thread, and the same cost for names that nobody has.

use argon2::password_hash::{PasswordHash, PasswordHasher as _, PasswordVerifier as _, SaltString};
use argon2::{Algorithm, Argon2, Params, Version};
use shared_types::form::people::Password;

use crate::app::App;
use crate::clock::random;
use crate::error::AppError;

/// The shape of a hash that no password has.
const NOBODY: &str = "$argon2id$v=19$m=19456,t=2,p=1$c29tZXNhbHRzb21lc2FsdA$\
    AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

/// OWASP Password Storage Cheat Sheet: argon2id, 19 MiB, two passes, one lane.
fn argon2() -> Result<Argon2<'static>, AppError> {
    let params = Params::new(19_456, 2, 1, None).map_err(|error| anyhow::anyhow!("{error}"))?;
    Ok(Argon2::new(Algorithm::Argon2id, Version::V0x13, params))
}

/// Hashes a new password, as a PHC string.
pub(crate) async fn hash(app: &App, password: Password) -> Result<String, AppError> {
    let argon2 = argon2()?;
    on_a_thread(app, move || {
        let salt = SaltString::encode_b64(&random::<16>());
        let hash = salt.and_then(|salt| {
            let hash = argon2.hash_password(password.as_bytes(), &salt)?;
            Ok(hash.to_string())
        });
        hash.map_err(|error| AppError::Internal(anyhow::anyhow!("{error}")))
    })
    .await?
}

/// Whether the password fits the hash; without a hash it never does, at the same cost.
pub(crate) async fn fits(
    app: &App,
    password: Password,
    hash: Option<String>,
) -> Result<bool, AppError> {
    let argon2 = argon2()?;
    on_a_thread(app, move || {
        let known = hash.is_some();
        let hash = hash.unwrap_or_else(|| NOBODY.to_owned());
        let fits = PasswordHash::new(&hash)
            .is_ok_and(|hash| argon2.verify_password(password.as_bytes(), &hash).is_ok());
        known && fits
    })
    .await
}

async fn on_a_thread<T: Send + 'static>(
    app: &App,
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, AppError> {
    let permit = app.hashing.acquire().await;
    let done = tokio::task::spawn_blocking(work).await;
    drop(permit);
    done.map_err(|error| AppError::Internal(error.into()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_nobody_has_costs_a_real_hash() {
        let hash = PasswordHash::new(NOBODY).unwrap();
        assert_eq!(hash.hash.map(|hash| hash.len()), Some(32));
        assert_eq!(Params::try_from(&hash).unwrap().m_cost(), 19_456);
    }
}
