//! A prepared offer, exactly as the customer will see it, and the button that sends it.

use leptos::prelude::*;
use shared_types::contact::Customer;
use shared_types::digest::Digest;
use shared_types::id::{PairId, TicketId};
use shared_types::margin::Margin;
use shared_types::money::MoneyProblem;
use shared_types::paths;
use shared_types::scope::offer::{OfferState, Revision};
use shared_types::scope::sheet::ChoiceKey;

use crate::document::{BackRoom, Desk, Room};
use crate::elements::margin_table::MarginTable;
use crate::elements::offer_sheet::{OfferSheet, Press};
use crate::elements::pair_words::{begun, tag_words};
use crate::elements::pictures::Photos;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Preview {
    /// Who works on it.
    pub desk: Desk,
    /// Which ticket.
    pub ticket: TicketId,
    /// Which pair.
    pub pair: PairId,
    /// Whose it is.
    pub customer: Customer,
    /// The prepared offer as a revision without answers.
    pub revision: Revision,
    /// Its digest, which the button sends along.
    pub digest: Digest,
    /// What each choice leaves the shop, for its owner.
    pub margins: Vec<(ChoiceKey, Result<Margin, MoneyProblem>)>,
}

/// A prepared offer, exactly as the customer will see it, and the button that sends it.
#[component]
pub fn PreviewPage(props: Preview) -> impl IntoView {
    let Preview {
        desk,
        ticket,
        pair,
        customer,
        revision,
        digest,
        margins,
    } = props;
    let margins = margins_of(margins);
    let zone = desk.shop.calendar.zone.clone();
    let sheet = &revision.sheet;
    let tag = tag_words(sheet.ticket, sheet.tag);
    let what = sheet.pair.to_string();
    let heading = begun(&what);
    let name = customer.name.to_string();
    let offer = sheet.offer().map(|offer| {
        let state = OfferState::Open {
            answer_by: offer.answer_by,
        };
        let (revision, press, now) = (revision.clone(), Press::Inert, sheet.made_at);
        view! { <OfferSheet revision state now zone photos=Photos::Shop press /> }
    });
    view! {
        <BackRoom desk title="Look at the offer".to_owned() here=Room::Elsewhere>
            <div class="page-head">
                <h1>"The offer, before it goes"</h1>
                <p>
                    <a href=paths::pair(pair)>{tag} ", " {what}</a> " · "
                    <a href=paths::shop_ticket(ticket)>"the ticket"</a>
                </p>
            </div>
            <p>
                "This is exactly what " <bdi>{name.clone()}</bdi>
                " will see. Nothing has been sent yet. Its buttons do nothing here."
            </p>
            <section class="as-seen" aria-label="As the customer will see it">
                <p class="as-seen-pair">{heading}</p>
                {offer}
            </section>
            {margins}
            <form class="form-rows" method="post" action=paths::send_offer(pair)>
                <input type="hidden" name="digest" value=digest.to_string() />
                {reached(&customer)}
                <div class="acts">
                    <a class="act" data-act="decline" href=paths::compose(pair)>"Change it"</a>
                    <button class="act">{send_words(&customer)}</button>
                </div>
            </form>
        </BackRoom>
    }
}

/// What each choice leaves: for the owner, outside what the customer will see.
fn margins_of(
    margins: Vec<(ChoiceKey, Result<Margin, MoneyProblem>)>,
) -> Option<impl IntoView + use<>> {
    if margins.is_empty() {
        return None;
    }
    let tables: Vec<_> = margins
        .into_iter()
        .map(|(key, margin)| {
            view! {
                <h3>{format!("Choice {key}")}</h3>
                <MarginTable margin />
            }
        })
        .collect();
    Some(view! {
        <section>
            <h2>"What it leaves you"</h2>
            {tables}
        </section>
    })
}

fn send_words(customer: &Customer) -> String {
    match customer.email {
        Some(_) => format!("Send it to {} by mail", customer.name),
        None => "Put it on their page; they have no mail address, so ring them".to_owned(),
    }
}

fn reached(customer: &Customer) -> impl IntoView + use<> {
    let words = match (&customer.email, &customer.phone) {
        (Some(email), _) => format!("A letter with the link goes to {email}."),
        (None, Some(phone)) => {
            format!("Ring them on {phone}; read it out, and write their word down on the pair.")
        }
        (None, None) => {
            "There is neither a mail address nor a telephone number. Add one on the ticket first."
                .to_owned()
        }
    };
    view! { <p>{words}</p> }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::contact::Email;
    use shared_types::staff::Role;

    use super::*;
    use crate::fixture;

    fn page(email: Option<Email>) -> String {
        let ticket = fixture::split_welt().ticket();
        let revision = ticket.pairs[0].revisions[1].clone();
        let props = Preview {
            desk: fixture::desk(Role::Bench),
            ticket: ticket.id,
            pair: fixture::BOOTS,
            customer: fixture::nadia(email),
            digest: revision.digest,
            margins: Vec::new(),
            revision,
        };
        crate::render::page(|| view! { <PreviewPage props /> })
    }

    #[test]
    fn only_one_button_can_be_pressed_and_it_sends_this_very_offer() {
        let html = page(Email::parse("nadia@example.com").ok());
        let main = html.split("<main").nth(1).unwrap();
        let live = main.split("<button").skip(1).filter(|button| {
            let tag = button.split('>').next().unwrap_or_default();
            !tag.contains("disabled")
        });
        assert_eq!(live.count(), 1, "{main}");
        assert!(main.contains("Send it to Nadia Okafor by mail"));
        assert!(main.contains("name=\"digest\""));
        assert!(!main.contains(fixture::SHOP_ONLY));
    }

    #[test]
    fn without_a_mail_address_the_shop_is_told_to_ring() {
        let html = page(None);
        assert!(html.contains("so ring them"), "{html}");
        assert!(html.contains("Ring them on 555-0177"), "{html}");
    }
}
