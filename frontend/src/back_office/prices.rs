//! The price book, and one service of it.

use leptos::prelude::*;
use shared_types::adjust::ScopeTerms;
use shared_types::form::service::ServiceField;
use shared_types::form::{Fields, FormErrors};
use shared_types::id::ServiceId;
use shared_types::minutes::Minutes;
use shared_types::paths;
use shared_types::price::{PriceRules, quote};
use shared_types::pricebook::Service;
use shared_types::size::ShoeSize;
use shared_types::stage::Stage;
use shared_types::supply::kept::Supply;
use shared_types::tax::TaxBasis;

use super::service_form::service_fields;
use super::service_plan::plan_fields;
use crate::document::{BackRoom, Desk, Room};
use crate::elements::to_put_right::ToPutRight;

/// Props of the price book.
#[derive(Clone, Debug)]
pub struct Prices {
    /// Who works on it.
    pub desk: Desk,
    /// By stage, then title, worked out for a pair of a usual size.
    pub services: Vec<Service>,
    /// Supplies to choose from.
    pub supplies: Vec<Supply>,
    /// What was typed into the form for a new service.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<ServiceField>,
}

/// The price book as a printed table, with a form for a new service.
#[component]
pub fn PricesPage(props: Prices) -> impl IntoView {
    let Prices {
        desk,
        services,
        supplies,
        fields,
        errors,
    } = props;
    let rules = desk.shop.prices;
    let stations = desk.shop.stations.clone();
    let book = if services.is_empty() {
        view! {
            <div class="empty">
                <p><b>"The price book is empty."</b></p>
                <p>"Add the work that you do every week first; rare work can be written on the ticket itself."</p>
            </div>
        }
        .into_any()
    } else {
        table(&services, &rules)
    };
    let wrong = errors.iter().count();
    view! {
        <BackRoom desk title="Price book".to_owned() here=Room::Prices>
            <h1>"Price book"</h1>
            <p>
                "A price is bench minutes at " {rules.hourly.to_string()}
                " an hour, plus material, rounded up to " {step_words(&rules)}
                ". Quantities from the bench sheet follow the pair; here they stand for "
                {ShoeSize::USUAL.to_string()} ". What was agreed before a change keeps its price."
            </p>
            <p><a href=paths::supplies()>"Supplies, and what they cost you"</a></p>
            <p>
                <a href=paths::rules()>"What goes together"</a>
                ": what work needs, rules out, makes pointless or is better done with."
            </p>
            {book}
            <section>
                <h2>"Add a service"</h2>
                <ToPutRight count=wrong />
                <form class="form-rows" method="post" action=paths::prices()>
                    {service_fields(&fields, &errors, &supplies)}
                    {plan_fields(&fields, &errors, &stations)}
                    <div class="acts"><button class="act">"Add to the price book"</button></div>
                </form>
            </section>
        </BackRoom>
    }
}

fn step_words(rules: &PriceRules) -> String {
    let step = shared_types::money::Money::new(i64::from(rules.round_up_to), rules.currency());
    step.map_or_else(|problem| problem.to_string(), |step| step.to_string())
}

fn table(services: &[Service], rules: &PriceRules) -> AnyView {
    let price = match rules.tax.basis {
        TaxBasis::Added => "Price before tax",
        TaxBasis::Included => "Price with tax",
    };
    let groups: Vec<_> = Stage::RUNS
        .into_iter()
        .filter_map(|stage| {
            let rows: Vec<_> = services
                .iter()
                .filter(|service| service.stage == stage)
                .map(|service| row(service, rules, price))
                .collect();
            (!rows.is_empty()).then(|| {
                view! {
                    <tbody>
                        <tr><th scope="rowgroup" colspan="5"><b>{stage.label()}</b></th></tr>
                        {rows}
                    </tbody>
                }
            })
        })
        .collect();
    view! {
        <div class="ledger-frame">
            <table class="ledger">
                <caption class="visually-hidden">"Services by stage, for a pair"</caption>
                <thead>
                    <tr>
                        <th scope="col">"Service, for a pair"</th>
                        <th scope="col" data-align="end">"At the bench"</th>
                        <th scope="col" data-align="end">"Rest after it"</th>
                        <th scope="col" data-align="end">"Material"</th>
                        <th scope="col" data-align="end">{price}</th>
                    </tr>
                </thead>
                {groups}
            </table>
        </div>
    }
    .into_any()
}

fn row(service: &Service, rules: &PriceRules, priced_as: &'static str) -> impl IntoView + use<> {
    let span = |minutes: Minutes| match minutes {
        Minutes::ZERO => "none".to_owned(),
        minutes => minutes.to_string(),
    };
    let quote = quote(&[service.line()], &ScopeTerms::PLAIN, rules);
    let priced = quote.map(|quote| quote.lines.first().copied());
    let (material, price) = match priced {
        Ok(Some(line)) => (line.material.to_string(), line.price.to_string()),
        Ok(None) => (String::new(), String::new()),
        Err(problem) => (String::new(), problem.to_string()),
    };
    let price = match service.set_price {
        Some(_) => format!("{price}, set"),
        None => price,
    };
    let about = service
        .about
        .as_ref()
        .map(|about| view! { <small>{about.to_string()}</small> });
    view! {
        <tr>
            <th scope="row"><a href=paths::service(service.id)>{service.title.to_string()}</a> {about}</th>
            <td data-align="end" data-label="At the bench">{span(service.minutes)}</td>
            <td data-align="end" data-label="Rest after it">{span(service.rest)}</td>
            <td data-align="end" data-label="Material">{material}</td>
            <td data-align="end" data-label=priced_as>{price}</td>
        </tr>
    }
}

/// Props of one service.
#[derive(Clone, Debug)]
pub struct ServiceView {
    /// Who works on it.
    pub desk: Desk,
    /// Which service.
    pub id: ServiceId,
    /// Supplies to choose from.
    pub supplies: Vec<Supply>,
    /// What was typed.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<ServiceField>,
}

/// One service to change; the button `act=retire` takes it out of the book.
#[component]
pub fn ServicePage(props: ServiceView) -> impl IntoView {
    let ServiceView {
        desk,
        id,
        supplies,
        fields,
        errors,
    } = props;
    let wrong = errors.iter().count();
    let stations = desk.shop.stations.clone();
    view! {
        <BackRoom desk title="A service".to_owned() here=Room::Prices>
            <div class="page-head">
                <h1>"Change a service"</h1>
                <p><a href=paths::prices()>"Price book"</a></p>
            </div>
            <p>"New tickets and offers take the change. What was agreed before keeps its price."</p>
            <ToPutRight count=wrong />
            <form class="form-rows" method="post" action=paths::service(id)>
                {service_fields(&fields, &errors, &supplies)}
                {plan_fields(&fields, &errors, &stations)}
                <div class="acts"><button class="act" name="act" value="save">"Save"</button></div>
            </form>
            <section>
                <h2>"No longer done"</h2>
                <p>"It can’t be picked any more. Tickets that have it keep it."</p>
                <form method="post" action=paths::service(id)>
                    <button class="act" data-act="plain" name="act" value="retire">
                        "Take it out of the price book"
                    </button>
                </form>
            </section>
        </BackRoom>
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::form::service::{fields_of, read};
    use shared_types::pricebook::Supplies;
    use shared_types::staff::Role;

    use super::*;
    use crate::fixture;

    #[test]
    fn the_book_shows_what_a_customer_pays_for_each_service() {
        let props = Prices {
            desk: fixture::desk(Role::Owner),
            services: fixture::price_book(),
            supplies: Vec::new(),
            fields: Fields::default(),
            errors: FormErrors::default(),
        };
        let html = crate::render::page(|| view! { <PricesPage props /> });
        // 95 min at 68.00 an hour is 107.67; with material 131.67, rounded up to 0.50.
        assert!(html.contains("$132.00"), "{html}");
        assert!(html.contains("Price before tax"));
        assert!(html.contains("name=\"rest\" value=\"0\""));
    }

    #[test]
    fn a_service_keeps_what_was_typed() {
        let service = &fixture::book()[1];
        let mut fields = fields_of(service);
        fields.set(&ServiceField::Minutes.name(), fixture::WILD);
        let currency = fixture::shop().currency();
        let errors = read(&fields, service.id, &Supplies::new(), currency).unwrap_err();
        let props = ServiceView {
            desk: fixture::desk(Role::Owner),
            id: service.id,
            supplies: Vec::new(),
            fields,
            errors,
        };
        let html = crate::render::page(|| view! { <ServicePage props /> });
        assert!(html.contains("Write minutes such as 90"), "{html}");
        assert!(html.contains("value=\"structure\" selected"));
        assert!(!html.contains("<script>alert"));
    }

    #[test]
    fn a_station_that_is_gone_is_said_and_the_long_job_stays() {
        let mut entry = fixture::book()[1].clone();
        entry.station = Some(fixture::line("sole press"));
        entry.p90 = Some(Minutes::new(200));
        let props = ServiceView {
            desk: fixture::desk(Role::Owner),
            id: entry.id,
            supplies: Vec::new(),
            fields: fields_of(&entry),
            errors: FormErrors::default(),
        };
        let html = crate::render::page(|| view! { <ServicePage props /> });
        let kept = "<option value=\"sole press\" selected>sole press (not in the shop any more)";
        assert!(html.contains(kept), "{html}");
        assert!(html.contains("name=\"p90\" value=\"200\""), "{html}");
    }
}
