//! Signing in.

use leptos::prelude::*;
use shared_types::form::people::PersonField;
use shared_types::paths;
use shared_types::text::Line;

use crate::document::Document;
use crate::elements::field::{Kind, TextField};
use crate::elements::welt::{WeltNow, WeltProgress, welt_svg};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct SignIn {
    /// The shop.
    pub shop: Line,
    /// The name that was typed.
    pub name: String,
    /// Why it did not work.
    pub trouble: Option<String>,
    /// Where to go afterwards.
    pub onward: String,
}

/// Signing in. What went wrong stands above both fields: it never tells which of them it was.
#[component]
pub fn SignInPage(props: SignIn) -> impl IntoView {
    let SignIn {
        shop,
        name,
        trouble,
        onward,
    } = props;
    let has_name = !name.is_empty();
    let trouble = trouble.map(|trouble| {
        view! { <p class="flash" data-kind="problem" role="alert">{trouble}</p> }
    });
    view! {
        <Document title=format!("Sign in · {shop}")>
            <main class="sign-in" id="main" tabindex="-1">
                <Mark />
                <h1>{shop.to_string()}</h1>
                {trouble}
                <form class="form-rows" method="post" action=paths::sign_in()>
                    <input type="hidden" name="onward" value=onward />
                    <TextField
                        label="Your name"
                        name=PersonField::Name.name()
                        value=name
                        complete="username"
                        required=true
                        focus=!has_name
                    />
                    <TextField
                        label="Password"
                        name=PersonField::Password.name()
                        kind=Kind::Password
                        required=true
                        focus=has_name
                    />
                    <button class="act">"Sign in"</button>
                </form>
            </main>
        </Document>
    }
}

/// The stitched sole over the door.
#[component]
pub fn Mark() -> impl IntoView {
    let progress = WeltProgress {
        runs: 5,
        done: 3,
        now: WeltNow::Stitching,
        all_round: false,
    };
    let drawing = welt_svg(&progress, "The outline of a sole, its welt half stitched");
    view! { <div class="sign-in-mark" inner_html=drawing></div> }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use super::*;

    fn rendered(trouble: Option<&str>) -> String {
        let props = SignIn {
            shop: Line::parse("Juniper Row").expect("a name"),
            name: "Ada".to_owned(),
            trouble: trouble.map(ToOwned::to_owned),
            onward: "/shop/bench".to_owned(),
        };
        crate::render::page(|| view! { <SignInPage props /> })
    }

    #[test]
    fn a_browser_can_fill_in_name_and_password() {
        let html = rendered(None);
        assert!(html.contains("action=\"/shop/sign-in\""), "{html}");
        assert!(html.contains("autocomplete=\"username\""));
        assert!(html.contains("autocomplete=\"current-password\""));
        assert!(html.contains("name=\"onward\" value=\"/shop/bench\""));
        assert!(!html.contains("role=\"alert\""));
    }

    #[test]
    fn trouble_is_read_out_and_points_at_neither_field() {
        let html = rendered(Some("Name and password do not fit."));
        assert!(html.contains("role=\"alert\""), "{html}");
        assert!(!html.contains("aria-invalid"));
    }
}
