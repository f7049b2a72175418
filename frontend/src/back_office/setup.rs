//! The one-time set-up: the first owner.

use leptos::prelude::*;
use shared_types::form::people::{Password, PersonField};
use shared_types::form::{Fields, FormErrors};
use shared_types::paths;

use super::sign_in::Mark;
use crate::document::Document;
use crate::elements::field::{Kind, TextField};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct SetUp {
    /// The one-time code in the link.
    pub code: String,
    /// What was typed.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<PersonField>,
}

/// The one-time set-up: the first owner.
#[component]
pub fn SetUpPage(props: SetUp) -> impl IntoView {
    let SetUp {
        code,
        fields,
        errors,
    } = props;
    let first = errors.iter().next().map(|(field, _)| *field);
    let hint = format!(
        "At least {} characters. A sentence is easiest to keep.",
        Password::LEAST
    );
    view! {
        <Document title="Set up the shop".to_owned()>
            <main class="sign-in" id="main" tabindex="-1">
                <Mark />
                <h1>"Set up the shop"</h1>
                <p>
                    "You are the first here. Name the shop and yourself; hours, prices and people
                    come afterwards. This link works once."
                </p>
                <form class="form-rows" method="post" action=paths::setup(code)>
                    <TextField
                        label="Name of the shop"
                        name=PersonField::Shop.name()
                        value=fields.one(PersonField::Shop.name())
                        error=errors.at(&PersonField::Shop)
                        hint="As it is on the door."
                        complete="organization"
                        required=true
                        focus=first.is_none_or(|first| first == PersonField::Shop)
                    />
                    <TextField
                        label="Your name"
                        name=PersonField::Name.name()
                        value=fields.one(PersonField::Name.name())
                        error=errors.at(&PersonField::Name)
                        hint="You sign in with it."
                        complete="username"
                        required=true
                        focus=first == Some(PersonField::Name)
                    />
                    <TextField
                        label="Password"
                        name=PersonField::Password.name()
                        kind=Kind::NewPassword
                        error=errors.at(&PersonField::Password)
                        hint
                        required=true
                        focus=first == Some(PersonField::Password)
                    />
                    <button class="act">"Open the shop"</button>
                </form>
            </main>
        </Document>
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::form::Problem;

    use super::*;

    #[test]
    fn what_was_typed_is_kept_except_the_password() {
        let mut fields = Fields::default();
        fields.push("shop", "Juniper Row");
        fields.push("name", "Ada");
        fields.push("password", "too short");
        let mut errors = FormErrors::default();
        errors.add(
            PersonField::Password,
            Problem::WeakPassword {
                least: Password::LEAST,
            },
        );
        let props = SetUp {
            code: "c0de".to_owned(),
            fields,
            errors,
        };
        let html = crate::render::page(|| view! { <SetUpPage props /> });
        assert!(html.contains("action=\"/setup/c0de\""), "{html}");
        assert!(html.contains("value=\"Juniper Row\""));
        assert!(html.contains("value=\"Ada\""));
        assert!(!html.contains("too short"));
        assert!(html.contains("A password needs at least 15 characters"));
        assert!(html.contains("autocomplete=\"new-password\""));
    }
}
