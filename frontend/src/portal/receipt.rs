//! The receipt of payment and hand-over; it prints.

use leptos::prelude::*;
use shared_types::contact::CustomerName;
use shared_types::moment::{Moment, Zone};
use shared_types::shop::Shop;
use shared_types::ticket::{Pair, Ticket};

use crate::document::Portal;
use crate::elements::bill::Bill;
use crate::elements::pair_words::{begun, tag_words};
use crate::elements::price_table::PriceTable;
use crate::elements::print_button::PrintButton;
use crate::elements::when::WhenKept;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Receipt {
    /// The shop.
    pub shop: Shop,
    /// Whose it is.
    pub customer: CustomerName,
    /// The ticket, without what is for the shop only.
    pub ticket: Ticket,
    /// Now.
    pub now: Moment,
    /// Where the reader came from.
    pub back: String,
}

/// The receipt of payment and hand-over; it prints.
#[component]
pub fn ReceiptPage(props: Receipt) -> impl IntoView {
    let Receipt {
        shop,
        customer,
        ticket,
        now,
        back,
    } = props;
    let zone = shop.calendar.zone.clone();
    let name = shop.name.to_string();
    let pairs: Vec<_> = ticket
        .pairs
        .iter()
        .map(|pair| pair_part(&ticket, pair, &zone))
        .collect();
    let cash = shop.prices.cash;
    view! {
        <Portal shop title=format!("Receipt of ticket {}", ticket.number)>
            <article class="receipt">
                <header>
                    <h1>{format!("Receipt, ticket {}", ticket.number)}</h1>
                    <p dir="auto">{name}</p>
                </header>
                <dl class="receipt-facts">
                    <div><dt>"For"</dt><dd><bdi>{customer.as_str().to_owned()}</bdi></dd></div>
                    <div>
                        <dt>"Taken in"</dt>
                        <dd><WhenKept at=ticket.taken_in_at zone=zone.clone() /></dd>
                    </div>
                    <div>
                        <dt>"As of"</dt>
                        <dd><WhenKept at=now zone=zone.clone() /></dd>
                    </div>
                </dl>
                {pairs}
                <h2>"Paid and due"</h2>
                <Bill ticket=ticket.clone() zone cash />
                <p class="receipt-seal">
                    "Seal of the whole record: " <code>{ticket.head.short()}</code>
                    {format!(", {} entries", ticket.length)}
                </p>
            </article>
            <section class="paper-act">
                <PrintButton />
                <p><a href=back>"Back"</a></p>
            </section>
        </Portal>
    }
}

fn pair_part(ticket: &Ticket, pair: &Pair, zone: &Zone) -> impl IntoView + use<> {
    let handed = match &pair.handed_over {
        Some((at, to)) => view! {
            <p>
                "Handed over " <WhenKept at=*at zone=zone.clone() /> " to "
                <bdi>{to.to_string()}</bdi> "."
            </p>
        }
        .into_any(),
        None => view! { <p>"Not handed over yet."</p> }.into_any(),
    };
    let title = begun(&pair.about.title());
    let caption = format!("Tag {}", tag_words(ticket.number, pair.tag));
    view! {
        <h2 dir="auto">{title}</h2>
        {handed}
        <PriceTable scope=pair.agreed().clone() caption />
    }
}
