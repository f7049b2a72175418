//! Who works here.

use leptos::prelude::*;
use shared_types::form::people::{Password, PersonField};
use shared_types::form::{Fields, FormErrors};
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::staff::{Role, Staff};

use crate::document::{BackRoom, Desk, Room};
use crate::elements::field::{Choice, Kind, TextField};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct People {
    /// Who works on it.
    pub desk: Desk,
    /// Everyone, with the time since which they may no longer sign in.
    pub people: Vec<(Staff, Option<Moment>)>,
    /// What was typed into the form for someone new.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<PersonField>,
}

/// Who works here.
#[component]
pub fn PeoplePage(props: People) -> impl IntoView {
    let People {
        desk,
        people,
        fields,
        errors,
    } = props;
    let rows = people
        .into_iter()
        .map(|(staff, left_at)| view! { <Person desk=desk.clone() staff left_at /> })
        .collect_view();
    view! {
        <BackRoom desk title="People".to_owned() here=Room::People>
            <div class="page-head">
                <h1>"People"</h1>
                <p>"Everybody signs in with their own name, so that the record says who did what."</p>
            </div>
            <ul class="sentence-list">{rows}</ul>
            <section>
                <h2>"Somebody new"</h2>
                <NewPerson fields errors />
            </section>
        </BackRoom>
    }
}

#[component]
fn Person(desk: Desk, staff: Staff, left_at: Option<Moment>) -> impl IntoView {
    let name = staff.name.to_string();
    let action = paths::person(staff.id);
    let since = left_at.map(|at| desk.shop.calendar.zone.words_with_year(at));
    let line = match since {
        Some(since) => format!(", {}. May not sign in since {since}.", does(staff.role)),
        None if staff.id == desk.staff.id => format!(", {}. That is you.", does(staff.role)),
        None => format!(", {}.", does(staff.role)),
    };
    let act = match left_at {
        Some(_) => Some(("enable", format!("Let {name} sign in again"))),
        None if staff.id == desk.staff.id => None,
        None => Some(("disable", format!("Stop {name} signing in"))),
    };
    let act = act.map(|(act, words)| {
        view! {
            <form method="post" action=action.clone()>
                <button class="act" data-act="plain" name="act" value=act>{words}</button>
            </form>
        }
    });
    view! {
        <li data-settled=left_at.is_some()>
            <div>
                <p><b>{name.clone()}</b>{line}</p>
                <details class="fold">
                    <summary>{format!("A new password for {name}")}</summary>
                    <form class="form-rows" method="post" action=action.clone()>
                        <TextField
                            label=format!("New password for {name}")
                            name=PersonField::Password.name()
                            kind=Kind::NewPassword
                            hint=password_hint()
                            required=true
                            id=format!("password-{}", staff.id)
                        />
                        <button class="act" data-act="plain" name="act" value="password">
                            "Set the password"
                        </button>
                    </form>
                </details>
            </div>
            {act}
        </li>
    }
}

#[component]
fn NewPerson(fields: Fields, errors: FormErrors<PersonField>) -> impl IntoView {
    let first = errors.iter().next().map(|(field, _)| *field);
    let roles = Role::ALL.into_iter().map(|role| {
        let words = format!("{}: {}", role.label(), does(role));
        (role.code().to_owned(), words)
    });
    let roles: Vec<_> = roles.collect();
    view! {
        <form class="form-rows" method="post" action=paths::people()>
            <TextField
                label="Name"
                name=PersonField::Name.name()
                value=fields.one(PersonField::Name.name())
                error=errors.at(&PersonField::Name)
                hint="They sign in with it, and the record names them."
                complete="off"
                required=true
                focus=first == Some(PersonField::Name)
            />
            <Choice
                label="What they do"
                name=PersonField::Role.name()
                options=roles
                selected=fields.one(PersonField::Role.name())
                error=errors.at(&PersonField::Role)
                required=true
                focus=first == Some(PersonField::Role)
            />
            <TextField
                label="Password"
                name=PersonField::Password.name()
                kind=Kind::NewPassword
                error=errors.at(&PersonField::Password)
                hint=password_hint()
                required=true
                focus=first == Some(PersonField::Password)
            />
            <button class="act">"Add them"</button>
        </form>
    }
}

const fn does(role: Role) -> &'static str {
    match role {
        Role::Owner => "runs the shop and may do everything",
        Role::Counter => "takes pairs in, takes money, hands pairs over",
        Role::Bench => "works on pairs",
    }
}

fn password_hint() -> String {
    format!(
        "At least {} characters. A sentence is easiest to keep.",
        Password::LEAST
    )
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::form::Problem;
    use shared_types::id::StaffId;

    use super::*;
    use crate::fixture::{december, desk, line};

    fn rendered(errors: FormErrors<PersonField>) -> String {
        let desk = desk(Role::Owner);
        let other = Staff {
            id: StaffId::from_bytes([8; 16]),
            name: line("Tomas"),
            role: Role::Bench,
        };
        let gone = Staff {
            id: StaffId::from_bytes([6; 16]),
            name: line("Bea"),
            role: Role::Counter,
        };
        let props = People {
            people: vec![
                (desk.staff.clone(), None),
                (other, None),
                (gone, Some(december(1, 9, 0))),
            ],
            desk,
            fields: Fields::default(),
            errors,
        };
        crate::render::page(|| view! { <PeoplePage props /> })
    }

    #[test]
    fn the_owner_stops_others_but_not_themselves() {
        let html = rendered(FormErrors::default());
        assert!(html.contains("Stop Tomas signing in"), "{html}");
        assert!(html.contains("Let Bea sign in again"));
        assert!(!html.contains("Stop Ines"));
        assert!(html.contains("New password for Ines"));
    }

    #[test]
    fn a_missing_role_is_said_beside_the_roles() {
        let mut errors = FormErrors::default();
        errors.add(PersonField::Role, Problem::NotChosen);
        let html = rendered(errors);
        assert!(html.contains("aria-describedby=\"role-problem\""), "{html}");
        assert!(html.contains("Please choose one."));
    }
}
