//! The bench sheet to prop up: front and back of one A5, or an old tablet on a shelf. No name and no
//! price is on it.

use leptos::prelude::*;
use shared_types::bench::cautions::Step;
use shared_types::bench::drawing::plan::plan;
use shared_types::bench::drawing::side::as_built;
use shared_types::bench::field::Field;
use shared_types::bench::heel::Heel;
use shared_types::bench::sheet::BenchSheet;
use shared_types::bench::sheet::sections::{Section, Topic};
use shared_types::paths;
use shared_types::ticket::{AtTheBench, Pair, Rating};

use super::{BenchSheetView, SCALE, like_for_like};
use crate::document::Document;
use crate::elements::pair_words::{begun, tag_words};
use crate::elements::print_button::PrintButton;
use crate::elements::when::{Day, When};

/// The bench sheet to prop up.
#[component]
pub fn BenchPaperPage(props: BenchSheetView) -> impl IntoView {
    let pair = props.ticket.pair(props.pair)?.clone();
    let tag = tag_words(props.ticket.number, pair.tag);
    let known = pair.at_the_bench();
    let body = match known.sheet() {
        Ok(sheet) => view! {
            {front(&props, &pair, &known, &sheet)}
            {back(&tag, &pair, &known, &sheet)}
        }
        .into_any(),
        Err(problem) => {
            let lines = [safety(&pair), Some(problem.to_string())];
            let lines = lines.into_iter().flatten();
            let lines: Vec<_> = lines.map(|words| view! { <li>{words}</li> }).collect();
            view! {
                <article class="bench-paper">
                    {head(&props, &pair)}
                    <ul class="bench-first">{lines}</ul>
                </article>
            }
            .into_any()
        }
    };
    Some(view! {
        <Document title=format!("Bench sheet {tag}")>
            <main id="main" tabindex="-1" class="bench-papers">
                <div class="paper-act">
                    <p>
                        <a href=paths::bench_sheet(pair.id)>"The whole sheet"</a> " "
                        <a href=paths::pair(pair.id)>"The pair"</a>
                    </p>
                    <p>"One A5, front and back. Print at 100 %, not “fit to page”, and the drawings are true to their scale: lay a rule on the bar."</p>
                    <PrintButton />
                </div>
                {body}
            </main>
        </Document>
    })
}

fn front(props: &BenchSheetView, pair: &Pair, known: &AtTheBench, sheet: &BenchSheet) -> AnyView {
    let tag = tag_words(props.ticket.number, pair.tag);
    let sections: Vec<_> = sheet
        .at_a_glance()
        .iter()
        .map(|section| glance(section, known, sheet))
        .collect();
    let side = as_built(&known.measured, sheet)
        .map(|drawing| view! { <div class="bench-side" inner_html=drawing.svg(SCALE)></div> });
    view! {
        <article class="bench-paper" aria-label=format!("Bench sheet {tag}, front")>
            {head(props, pair)}
            {first(pair, known, sheet)}
            <div class="bench-glance">{sections}</div>
            {side}
        </article>
    }
    .into_any()
}

fn head(props: &BenchSheetView, pair: &Pair) -> AnyView {
    let tag = tag_words(props.ticket.number, pair.tag);
    let zone = props.desk.shop.calendar.zone.clone();
    let measured = match &pair.measured {
        Some(taken) => view! { <p>"Measured " <When at=taken.at zone /></p> }.into_any(),
        None => view! { <p>"Not measured: from size and build alone"</p> }.into_any(),
    };
    view! {
            <header>
                <h1>{tag}</h1>
                <div>
                    <p><b dir="auto">{begun(&pair.about.title())}</b></p>
                    <p>{pair.about.construction.label()} ". Ready by " <Day day=pair.promise() /></p>
                    {measured}
                </div>
            </header>
    }
    .into_any()
}

fn safety(pair: &Pair) -> Option<String> {
    let words = "Safety mark: our work can end it. The customer must be told first.";
    (pair.about.rating == Rating::Protective).then(|| words.to_owned())
}

/// What must be seen before a knife is taken.
fn first(pair: &Pair, known: &AtTheBench, sheet: &BenchSheet) -> AnyView {
    let heel = match &sheet.heel {
        Heel::Worked(_) => None,
        Heel::Missing(fields) => {
            let labels: Vec<_> = fields.iter().map(|field| field.label()).collect();
            Some(format!("Heel: still to measure {}.", labels.join(", ")))
        }
        Heel::Prescribed => Some(like_for_like(known)),
    };
    let misfits = sheet.heel.misfits().iter().map(ToString::to_string);
    let doubts = sheet.doubts.iter().map(|doubt| doubt.words.clone());
    let lines: Vec<_> = safety(pair)
        .into_iter()
        .chain(heel)
        .chain(misfits)
        .chain(doubts)
        .map(|words| view! { <li>{words}</li> })
        .collect();
    if lines.is_empty() {
        return ().into_any();
    }
    view! { <ul class="bench-first">{lines}</ul> }.into_any()
}

fn glance(section: &Section<'_>, known: &AtTheBench, sheet: &BenchSheet) -> AnyView {
    let mut rows: Vec<_> = section
        .figures
        .iter()
        .map(|figure| row(figure.label.to_owned(), figure.amount()))
        .collect();
    if section.topic == Topic::Heel {
        let lift = known.measured.given(Field::Lift);
        rows.push(row(
            "One lift".to_owned(),
            lift.unit.number(lift.value) + lift.unit.suffix(),
        ));
        rows.extend(sheet.nails.iter().map(|nails| {
            let take = nails
                .take
                .map_or_else(|| "none fits".to_owned(), |length| length.to_string());
            row(format!("Nails, {}", nails.joint.label()), take)
        }));
    }
    view! {
        <section>
            <h2>{section.title.clone()}</h2>
            <dl class="glance-figures">{rows}</dl>
        </section>
    }
    .into_any()
}

fn row(label: String, amount: String) -> AnyView {
    view! { <div><dt>{label}</dt><dd>{amount}</dd></div> }.into_any()
}

fn back(tag: &str, pair: &Pair, known: &AtTheBench, sheet: &BenchSheet) -> AnyView {
    let outline = plan(&known.measured, sheet);
    let mut steps: Vec<(Step, Vec<&str>)> = Vec::new();
    for caution in &sheet.cautions {
        let words = caution.hazard.in_short();
        match steps.last_mut().filter(|(step, _)| *step == caution.step) {
            Some((_, said)) => said.push(words),
            None => steps.push((caution.step, vec![words])),
        }
    }
    let cautions: Vec<_> = steps
        .into_iter()
        .map(|(step, said)| {
            view! { <li><b>{step.label()} ": "</b> {said.join("; ")} "."</li> }
        })
        .collect();
    let assumed: Vec<_> = known
        .assumed
        .iter()
        .map(|assumption| view! { <li>{assumption.to_string()}</li> })
        .collect();
    view! {
        <article class="bench-paper" aria-label=format!("Bench sheet {tag}, back")>
            <header>
                <h2>{tag.to_owned()}</h2>
                <div><p dir="auto">{begun(&pair.about.title())}</p></div>
            </header>
            <div class="bench-plan" inner_html=outline.svg(SCALE)></div>
            <ul class="bench-small">{cautions} {assumed}</ul>
        </article>
    }
    .into_any()
}
