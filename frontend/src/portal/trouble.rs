//! A page for what went wrong: what happened and a way onward.

use leptos::prelude::*;

use crate::document::Document;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Trouble {
    /// What happened, as a heading.
    pub title: String,
    /// Why, and what to do now.
    pub words: String,
    /// A way onward: words and link.
    pub onward: Option<(String, String)>,
    /// The number by which the shop finds this in its log.
    pub request: Option<String>,
}

/// A page for what went wrong: what happened and a way onward.
#[component]
pub fn TroublePage(props: Trouble) -> impl IntoView {
    let Trouble {
        title,
        words,
        onward,
        request,
    } = props;
    let onward = onward.map(|(words, path)| {
        view! { <p><a class="act" data-act="plain" href=path>{words}</a></p> }
    });
    let request = request.map(|request| {
        view! { <p>"If you ring us about it, say this number: " <code>{request}</code></p> }
    });
    view! {
        <Document title=title.clone()>
            <div class="portal">
                <main id="main" tabindex="-1">
                    <section>
                        <h1>{title}</h1>
                        <p>{words}</p>
                        {onward}
                        {request}
                    </section>
                </main>
            </div>
        </Document>
    }
}
