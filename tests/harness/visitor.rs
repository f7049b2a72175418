//! What a browser does, without a browser: keeps cookies, follows nothing by itself, says where a
//! form comes from.

use anyhow::Result;
use reqwest::{Client, Method, RequestBuilder, redirect};

use super::form::Form;
use super::page::Page;

/// Somebody with a browser.
#[derive(Clone)]
pub(crate) struct Visitor {
    http: Client,
    origin: String,
}

impl Visitor {
    /// A browser that knows no cookie yet.
    pub(crate) fn new(origin: &str) -> Result<Self> {
        let http = Client::builder()
            .cookie_store(true)
            .redirect(redirect::Policy::none())
            .no_proxy()
            // A program that was stopped must not be asked on its old connection.
            .pool_max_idle_per_host(0)
            .build()?;
        Ok(Self {
            http,
            origin: origin.to_owned(),
        })
    }

    /// Opens a page.
    pub(crate) async fn get(&self, path: &str) -> Result<Page> {
        Page::read(self.raw(Method::GET, path).send().await?).await
    }

    /// Opens the page to which an answer leads.
    pub(crate) async fn follow(&self, page: &Page) -> Result<Page> {
        self.get(page.location()?).await
    }

    /// Sends a form from one of the shop's own pages.
    pub(crate) async fn post(&self, path: &str, form: Form) -> Result<Page> {
        let request = self
            .raw(Method::POST, path)
            .header("origin", &self.origin)
            .header("sec-fetch-site", "same-origin");
        Page::read(form.into_body(request)?.send().await?).await
    }

    /// A request with nothing of what a browser adds.
    pub(crate) fn raw(&self, method: Method, path: &str) -> RequestBuilder {
        self.http.request(method, format!("{}{path}", self.origin))
    }
}
