//! Letters with their state, and one letter to read.

use leptos::prelude::*;
use shared_types::letter::{LetterBrief, LetterState};
use shared_types::moment::Zone;
use shared_types::paths;

use crate::document::{BackRoom, Desk, Room};
use crate::elements::letter_words::letter_words;

/// Props of the list.
#[derive(Clone, Debug)]
pub struct Letters {
    /// Who works on it.
    pub desk: Desk,
    /// Newest first.
    pub letters: Vec<LetterBrief>,
    /// Whether a mail server is set up.
    pub is_sending: bool,
}

/// The letters with their state.
#[component]
pub fn LettersPage(props: Letters) -> impl IntoView {
    let Letters {
        desk,
        letters,
        is_sending,
    } = props;
    let zone = desk.shop.calendar.zone.clone();
    let about = if is_sending {
        "What we wrote to customers, newest first, and whether it went out."
    } else {
        "No mail server is set up, so nothing is sent. Letters are kept here to read, and you \
         can pass on what they say."
    };
    let list = if letters.is_empty() {
        view! {
            <div class="empty">
                <p><b>"No letters yet."</b></p>
                <p>"The first is written when a pair is taken in from a customer with a mail address."</p>
            </div>
        }
        .into_any()
    } else {
        view! { <LetterTable letters zone /> }.into_any()
    };
    view! {
        <BackRoom desk title="Letters".to_owned() here=Room::Letters>
            <div class="page-head">
                <h1>"Letters"</h1>
                <p>{about}</p>
            </div>
            {list}
        </BackRoom>
    }
}

/// Letters as a table: what, to whom, and what became of each.
#[component]
pub fn LetterTable(
    /// In the order in which they are shown.
    letters: Vec<LetterBrief>,
    /// The zone of the shop's clock.
    zone: Zone,
) -> impl IntoView {
    let rows = letters
        .into_iter()
        .map(|letter| {
            let about = format!("To {}, ticket {}", letter.to, letter.number);
            view! {
                <tr>
                    <th scope="row">
                        <a href=paths::letter(letter.id)>{letter.subject}</a>
                        <small>{about}</small>
                    </th>
                    <td data-label="Written">{zone.words(letter.written_at)}</td>
                    <td data-label="What became of it">{letter_words(&letter.state, &zone)}</td>
                </tr>
            }
        })
        .collect_view();
    view! {
        <div class="ledger-frame">
            <table class="ledger" aria-label="Letters">
                <thead>
                    <tr>
                        <th scope="col">"Letter"</th>
                        <th scope="col">"Written"</th>
                        <th scope="col">"What became of it"</th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        </div>
    }
}

/// Props of one letter.
#[derive(Clone, Debug)]
pub struct Letter {
    /// Who works on it.
    pub desk: Desk,
    /// The letter.
    pub letter: LetterBrief,
    /// Its text part.
    pub text: String,
    /// Names of what is attached.
    pub attached: Vec<String>,
}

/// One letter to read, with a way to send it again if it was given up.
#[component]
pub fn LetterPage(props: Letter) -> impl IntoView {
    let Letter {
        desk,
        letter,
        text,
        attached,
    } = props;
    let zone = &desk.shop.calendar.zone;
    let state = letter_words(&letter.state, zone);
    let written = zone.words_with_year(letter.written_at);
    let is_given_up = matches!(letter.state, LetterState::GivenUp { .. });
    let retry = is_given_up.then(|| {
        view! {
            <form method="post" action=paths::retry_letter(letter.id)>
                <button class="act">"Send it again"</button>
            </form>
            <p>"If it comes back again, ring the customer."</p>
        }
    });
    let attached = (!attached.is_empty()).then(|| {
        view! { <p>"Attached: " {attached.join(", ")}</p> }
    });
    view! {
        <BackRoom desk title=letter.subject.clone() here=Room::Letters>
            <h1>{letter.subject.clone()}</h1>
            <dl class="facts">
                <div><dt>"To"</dt><dd>{letter.to.to_string()}</dd></div>
                <div>
                    <dt>"Ticket"</dt>
                    <dd>
                        <a href=paths::shop_ticket(letter.ticket)>{letter.number.to_string()}</a>
                    </dd>
                </div>
                <div><dt>"Written"</dt><dd>{written}</dd></div>
                <div><dt>"State"</dt><dd>{state}</dd></div>
            </dl>
            {retry}
            <article class="letter-text" aria-label="The letter">{text}</article>
            {attached}
            <p><a href=paths::letters()>"All letters"</a></p>
        </BackRoom>
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::contact::Email;
    use shared_types::id::{LetterId, TicketId};
    use shared_types::staff::Role;
    use shared_types::ticket::TicketNumber;

    use super::*;
    use crate::fixture::{WILD, WILD_ESCAPED, december, desk};

    fn letter(state: LetterState) -> LetterBrief {
        LetterBrief {
            id: LetterId::from_bytes([4; 16]),
            ticket: TicketId::from_bytes([9; 16]),
            number: TicketNumber::new(4417),
            to: Email::parse("nadia@example.com").expect("an address"),
            subject: "We need your word on your boots".to_owned(),
            written_at: december(8, 14, 10),
            state,
        }
    }

    fn given_up() -> LetterState {
        LetterState::GivenUp {
            at: december(8, 15, 0),
            trouble: "550 no such mailbox".to_owned(),
        }
    }

    #[test]
    fn without_a_mail_server_the_page_says_that_nothing_is_sent() {
        let kept = letter(LetterState::Kept {
            at: december(8, 14, 10),
        });
        let props = Letters {
            desk: desk(Role::Counter),
            letters: vec![kept],
            is_sending: false,
        };
        let html = crate::render::page(|| view! { <LettersPage props /> });
        assert!(html.contains("No mail server is set up"), "{html}");
        assert!(html.contains("Kept here to read since Tue 8 Dec, 14:10."));
    }

    #[test]
    fn a_letter_that_was_given_up_can_be_sent_again() {
        let show = |state| {
            let props = Letter {
                desk: desk(Role::Counter),
                letter: letter(state),
                text: WILD.to_owned(),
                attached: vec!["pickup.ics".to_owned()],
            };
            crate::render::page(|| view! { <LetterPage props /> })
        };
        let html = show(given_up());
        assert!(html.contains("Send it again"), "{html}");
        assert!(html.contains("550 no such mailbox"));
        assert!(html.contains(WILD_ESCAPED));
        let sent = LetterState::Sent {
            at: december(8, 14, 11),
        };
        assert!(!show(sent).contains("Send it again"));
    }
}
