//! The claim ticket and the pairs' tags, to print.

use leptos::prelude::*;
use shared_types::contact::CustomerName;
use shared_types::form::Fields;
use shared_types::money::Money;
use shared_types::paths;
use shared_types::price::Quote;
use shared_types::shop::Shop;
use shared_types::tax::TaxBasis;
use shared_types::ticket::deposit::Deposit;
use shared_types::ticket::{Pair, Rating, Ticket};

use crate::back_office::ticket::money::Pay;
use crate::document::Document;
use crate::elements::pair_words::{begun, tag_words};
use crate::elements::print_button::PrintButton;
use crate::elements::prose::Prose;
use crate::elements::welt::{WeltNow, WeltProgress, welt_svg};
use crate::elements::when::Day;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Claim {
    /// The shop.
    pub shop: Shop,
    /// The ticket.
    pub ticket: Ticket,
    /// Whose it is.
    pub customer: CustomerName,
    /// The link that the code opens; nothing if the link was stopped.
    pub link: Option<String>,
    /// The code as SVG.
    pub code: Option<String>,
    /// Whether whoever prints it may also take money.
    pub may_take: bool,
}

/// The claim ticket and the pairs' tags, to print.
#[component]
pub fn ClaimPage(props: Claim) -> impl IntoView {
    let number = props.ticket.number;
    let title = format!("Claim ticket {number} · {}", props.shop.name);
    let pairs = &props.ticket.pairs;
    let tags: Vec<_> = pairs.iter().map(|pair| tag(&props, pair)).collect();
    let ways: Vec<_> = pairs
        .iter()
        .map(|pair| {
            let words = format!("Pair {} at the bench", pair.tag);
            let sheet = format!("Bench sheet of {}", pair.tag);
            view! {
                <li><a href=paths::pair(pair.id)>{words}</a></li>
                <li><a href=paths::bench_paper(pair.id)>{sheet}</a></li>
            }
        })
        .collect();
    view! {
        <Document title>
            <main id="main" tabindex="-1" class="paper">
                <div class="paper-act flow">
                    <h1>"Ticket " {number.to_string()} " is taken in"</h1>
                    <p>"Print the claim ticket for " <bdi>{props.customer.to_string()}</bdi> ", and a tag for each pair."</p>
                    <fieldset class="paper-choice">
                        <legend>"Paper"</legend>
                        <label class="check"><input type="radio" name="paper" value="strip" checked /> <span>"Strip, 80 mm"</span></label>
                        <label class="check"><input type="radio" name="paper" value="a6" /> <span>"A6"</span></label>
                    </fieldset>
                    <PrintButton />
                    {deposit_now(&props)}
                    <ul class="paper-ways">
                        <li><a href=paths::shop_ticket(props.ticket.id)>"The ticket"</a></li>
                        {ways}
                        <li><a href=paths::intake()>"Take in the next"</a></li>
                    </ul>
                </div>
                {stub(&props)}
                <section class="tag-papers">
                    <h2 class="paper-act">"Tags"</h2>
                    {tags}
                </section>
            </main>
        </Document>
    }
}

/// The deposit, to be taken at once with the form of the money panel.
fn deposit_now(props: &Claim) -> Option<AnyView> {
    let deposit = props.ticket.deposit().ok().flatten()?;
    let Deposit { asked, open, .. } = deposit;
    if !open.is_positive() {
        return Some(view! { <p>{format!("The deposit of {asked} is paid.")}</p> }.into_any());
    }
    let due = props.ticket.due().ok().filter(|_| props.may_take)?;
    let (ticket, rules) = (props.ticket.clone(), props.shop.prices);
    Some(
        view! {
            <details class="fold">
                <summary>{format!("Take the deposit of {open} now")}</summary>
                <p>"It is asked for, never a condition: the work goes on without it."</p>
                <Pay ticket rules due typed=Fields::default() />
            </details>
        }
        .into_any(),
    )
}

/// The deposit on paper: what is asked, and what was paid when it was printed.
fn deposit_words(ticket: &Ticket) -> Option<impl IntoView + use<>> {
    let Deposit { asked, paid, .. } = ticket.deposit().ok().flatten()?;
    let paid = format!("; paid {paid}");
    Some(
        view! { <p class="claim-ticket-day">"Deposit asked " <b>{asked.to_string()}</b> {paid}</p> },
    )
}

fn stub(props: &Claim) -> AnyView {
    let shop = &props.shop;
    let pairs: Vec<_> = props.ticket.pairs.iter().map(stub_pair).collect();
    let together = (props.ticket.pairs.len() > 1).then(|| {
        let total = props.ticket.total();
        let total = total.map_or_else(|problem| problem.to_string(), |total| total.to_string());
        view! { <p class="claim-ticket-day">"All pairs together " <b>{total}</b></p> }
    });
    let code = props.code.clone().zip(props.link.clone()).map(|(code, link)| {
        view! {
            <div class="claim-ticket-code">
                <div class="claim-ticket-square" aria-hidden="true" inner_html=code></div>
                <p>"Point a phone here to see where your pair is, or open " <span class="claim-ticket-link">{link}</span></p>
            </div>
        }
    });
    let address = shop.address.as_str().lines().collect::<Vec<_>>().join(", ");
    let ring = shop.phone.as_ref().map(|phone| format!(" · {phone}"));
    let claim = shop.terms.claim.clone();
    let claim = claim.map(|words| view! { <div class="claim-ticket-small"><Prose words /></div> });
    let since = shop.calendar.zone.words_with_year(props.ticket.taken_in_at);
    view! {
        <article class="claim-ticket" data-paper="strip" aria-label="Claim ticket">
            <p class="claim-ticket-shop">{shop.name.to_string()}</p>
            <p class="claim-ticket-small">{address} {ring}</p>
            <p class="claim-ticket-number">{props.ticket.number.to_string()}</p>
            <p><bdi>{props.customer.to_string()}</bdi> <br /> {since}</p>
            {pairs}
            {together}
            {deposit_words(&props.ticket)}
            {code}
            <p class="claim-ticket-small">"Hours: " {shop.calendar.week_words().join(" · ")}</p>
            <p class="claim-ticket-small">"We do what stands here and nothing more. If more is needed, we ask you first."</p>
            {claim}
        </article>
    }
    .into_any()
}

fn stub_pair(pair: &Pair) -> AnyView {
    let agreed = pair.agreed();
    let lines: Vec<_> = agreed
        .lines
        .iter()
        .zip(&agreed.quote.lines)
        .map(|(line, priced)| {
            view! { <li><span>{line.title.to_string()}</span> " " <span>{priced.price.to_string()}</span></li> }
        })
        .collect();
    let steps = agreed.quote.adjustments.iter();
    let steps: Vec<_> = steps
        .map(|step| {
            let amount = step.signed();
            let amount = amount.map_or_else(|problem| problem.to_string(), Money::signed);
            view! { <li><span>{step.title()}</span> " " <span>{amount}</span></li> }
        })
        .collect();
    let cautions: Vec<_> = pair
        .about
        .rating
        .cautions()
        .into_iter()
        .map(|words| view! { <div class="claim-ticket-small"><Prose words /></div> })
        .collect();
    view! {
        <section class="claim-ticket-part">
            <div class="claim-ticket-pair">
                {drawing(pair)}
                <p><b>{pair.tag.to_string()}</b> " " {begun(&pair.about.title())}</p>
            </div>
            <p class="claim-ticket-small">{pair.about.wrong.to_string()}</p>
            <ul class="claim-ticket-lines">{lines} {steps}</ul>
            <p>{tax_words(&agreed.quote)}</p>
            <p class="claim-ticket-day">"Together " <b>{agreed.total().to_string()}</b></p>
            <p class="claim-ticket-day">"Ready by " <b><Day day=agreed.ready_by /></b></p>
            {cautions}
        </section>
    }
    .into_any()
}

fn tax_words(quote: &Quote) -> String {
    let taxes: Vec<String> = quote
        .taxes
        .iter()
        .map(|tax| match quote.basis {
            TaxBasis::Added => format!("Tax {} % on {}: {}", tax.rate, tax.on, tax.tax),
            TaxBasis::Included => format!("{} % tax in it: {}", tax.rate, tax.tax),
        })
        .collect();
    if taxes.is_empty() {
        "No tax".to_owned()
    } else {
        taxes.join("; ")
    }
}

fn tag(props: &Claim, pair: &Pair) -> impl IntoView + use<> {
    let caution = (pair.about.rating == Rating::Protective)
        .then(|| view! { <p class="tag-caution">"Safety mark: told that our work can end it"</p> });
    let number = tag_words(props.ticket.number, pair.tag);
    view! {
        <article class="tag-paper" aria-label=format!("Tag {number}")>
            {drawing(pair)}
            <p class="tag-number">{number.clone()}</p>
            <p>{begun(&pair.about.title())}</p>
            {caution}
            <p>"Ready by " <Day day=pair.promise() /></p>
        </article>
    }
}

fn drawing(pair: &Pair) -> impl IntoView + use<> {
    let progress = WeltProgress {
        runs: 5,
        done: 0,
        now: WeltNow::NotStarted,
        all_round: pair.about.construction.is_all_round(),
    };
    view! { <div class="paper-welt" aria-hidden="true" inner_html=welt_svg(&progress, "")></div> }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use super::*;
    use crate::fixture;

    #[test]
    fn the_stub_has_price_with_tax_day_and_link_and_the_tag_has_the_safety_mark() {
        let ticket = fixture::two_pairs().ticket();
        let agreed = ticket.pairs[0].agreed().clone();
        let props = Claim {
            shop: fixture::shop(),
            ticket,
            customer: CustomerName::parse(fixture::WILD).unwrap(),
            link: Some("https://shop.example.com/t/abc".to_owned()),
            may_take: true,
            code: Some("<svg viewBox=\"0 0 29 29\"><path d=\"M0 0h29v29H0z\"/></svg>".to_owned()),
        };
        let html = crate::render::page(|| view! { <ClaimPage props /> });
        assert!(html.contains(&agreed.total().to_string()), "{html}");
        assert!(html.contains("Tax 6.25 % on "));
        assert!(html.contains("https://shop.example.com/t/abc"));
        assert_eq!(html.matches("class=\"tag-paper\"").count(), 2);
        assert_eq!(html.matches("class=\"tag-caution\"").count(), 1);
        assert!(!html.contains("<script>alert"));
    }
}
